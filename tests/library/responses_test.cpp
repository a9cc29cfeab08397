#include "library/responses.h"

#include "library/merge.h"
#include "sample_library.h"

#include <gtest/gtest.h>

namespace cospot::library {
namespace {

class Responses : public testing::Test {
protected:
    void add(SampleLibrary &library, std::int64_t compound, std::int64_t relative_to,
             std::int64_t system, double factor) {
        Transaction transaction(library.database);
        add_response(library.database, {compound, relative_to, system, factor, "", "", ""}, 1);
        transaction.commit();
    }

    SampleLibrary library_;
};

TEST_F(Responses, FactorsAreReversedAndChainedThroughAThirdCompound) {
    const std::int64_t a = library_.compound('A', "alpha");
    const std::int64_t b = library_.compound('B', "beta");
    const std::int64_t c = library_.compound('C', "gamma");
    const std::int64_t system = library_.system("C18", "water:methanol 1:1");
    const std::int64_t other = library_.system("CN", "water:methanol 1:1");
    add(library_, a, c, system, 0.8);
    add(library_, b, c, system, 2.0);
    const auto factor = [&](std::int64_t x, std::int64_t y, std::int64_t on) {
        return response_factor(library_.database, on, x, y);
    };
    EXPECT_DOUBLE_EQ(*factor(a, c, system), 0.8);
    EXPECT_DOUBLE_EQ(*factor(c, a, system), 1.25);
    EXPECT_DOUBLE_EQ(*factor(a, b, system), 0.4);
    EXPECT_DOUBLE_EQ(*factor(a, a, system), 1.0);
    EXPECT_FALSE(factor(a, c, other));
}

TEST_F(Responses, TheNewestCountsAndNothingIsStoredTwice) {
    const std::int64_t a = library_.compound('A', "alpha");
    const std::int64_t b = library_.compound('B', "beta");
    const std::int64_t system = library_.system("C18", "water:methanol 1:1");
    add(library_, a, b, system, 0.8);
    add(library_, a, b, system, 0.9);
    add(library_, a, b, system, 0.9);
    EXPECT_DOUBLE_EQ(*response_factor(library_.database, system, a, b), 0.9);
    EXPECT_EQ(all_responses(library_.database).size(), 2U);
}

TEST_F(Responses, AMergeTakesThemOver) {
    SampleLibrary there;
    const std::int64_t a = there.compound('A', "alpha");
    const std::int64_t b = there.compound('B', "beta");
    add(there, a, b, there.system("C18", "water:methanol 1:1"), 0.7);
    EXPECT_EQ(merge_library(library_.database, there.file, {}).responses_added, 1U);
    EXPECT_EQ(merge_library(library_.database, there.file, {}).responses_added, 0U);
    const auto records = response_records(library_.database);
    ASSERT_EQ(records.size(), 1U);
    EXPECT_EQ(records[0].compound, "alpha");
    EXPECT_EQ(records[0].relative_to, "beta");
    EXPECT_EQ(records[0].system, "C18");
    EXPECT_DOUBLE_EQ(records[0].factor, 0.7);
}

} // namespace
} // namespace cospot::library

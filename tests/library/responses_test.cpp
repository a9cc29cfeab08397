#include "library/responses.h"

#include "library/merge.h"
#include "sample_library.h"

#include <gtest/gtest.h>

namespace cospot::library {
namespace {

class Responses : public testing::Test {
protected:
    void add(SampleLibrary &library, CompoundId compound, CompoundId relative_to, SystemId system,
             double factor) {
        Transaction transaction(library.database);
        add_response(library.database, {compound, relative_to, system, factor, "", "", ""},
                     ChangeId{1});
        transaction.commit();
    }

    SampleLibrary library_;
};

TEST_F(Responses, FactorsAreReversedAndChainedThroughAThirdCompound) {
    const auto a = library_.compound('A', "alpha");
    const auto b = library_.compound('B', "beta");
    const auto c = library_.compound('C', "gamma");
    const auto system = library_.system("C18", "water:methanol 1:1");
    const auto other = library_.system("CN", "water:methanol 1:1");
    add(library_, a, c, system, 0.8);
    add(library_, b, c, system, 2.0);
    const auto factor = [&](CompoundId x, CompoundId y, SystemId on) {
        return response_factor(library_.database, on, x, y);
    };
    EXPECT_DOUBLE_EQ(*factor(a, c, system), 0.8);
    EXPECT_DOUBLE_EQ(*factor(c, a, system), 1.25);
    EXPECT_DOUBLE_EQ(*factor(a, b, system), 0.4);
    EXPECT_DOUBLE_EQ(*factor(a, a, system), 1.0);
    EXPECT_FALSE(factor(a, c, other));
}

TEST_F(Responses, TheNewestCountsAndNothingIsStoredTwice) {
    const auto a = library_.compound('A', "alpha");
    const auto b = library_.compound('B', "beta");
    const auto system = library_.system("C18", "water:methanol 1:1");
    add(library_, a, b, system, 0.8);
    add(library_, a, b, system, 0.9);
    add(library_, a, b, system, 0.9);
    EXPECT_DOUBLE_EQ(*response_factor(library_.database, system, a, b), 0.9);
    EXPECT_EQ(all_responses(library_.database).size(), 2U);
}

TEST_F(Responses, AMergeTakesThemOver) {
    SampleLibrary there;
    const auto a = there.compound('A', "alpha");
    const auto b = there.compound('B', "beta");
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

#include "library/retire.h"

#include "library/overview.h"
#include "library/value_records.h"
#include "sample_library.h"
#include "shared/error.h"

#include <gtest/gtest.h>

namespace cospot::library {
namespace {

class Retire : public testing::Test {
protected:
    std::size_t held() { return values_on_system(library_.database, system_, Quantity::Rf).size(); }

    std::vector<MeasurementRecord> all() {
        std::vector<MeasurementRecord> records;
        for_each_record(library_.database, {.of = system_, .which = Visit::all},
                        [&](const auto &record) { records.push_back(record); });
        return records;
    }

    SampleLibrary library_;
    Database &database_ = library_.database;
    CompoundId compound_ = library_.compound('A', "alpha");
    SystemId system_ = library_.system("silica", "hexane");
    MeasurementId first_ = library_.value(compound_, system_, 0.1);
    MeasurementId second_ = library_.value(compound_, system_, 0.2);
};

TEST_F(Retire, ARetiredValueNoLongerCountsAndStaysReadable) {
    EXPECT_EQ(retire_values(database_, {first_}, "plate ran askew").changed, 1U);
    EXPECT_EQ(held(), 1U);
    EXPECT_EQ(counts_of_system(database_, system_).values, 1);
    const auto records = all();
    ASSERT_EQ(records.size(), 2U);
    EXPECT_EQ(records[0].id, first_);
    EXPECT_EQ(records[0].state, ValueState::retired);
    ASSERT_TRUE(records[0].withdrawn);
    EXPECT_NE(records[0].withdrawn->detail.find("plate ran askew"), std::string::npos);
    EXPECT_FALSE(records[0].withdrawn->who.empty());
    EXPECT_EQ(records[0].withdrawn->at_utc.size(), 20U);
    EXPECT_EQ(records[1].state, ValueState::held);
    EXPECT_FALSE(records[1].withdrawn);
}

TEST_F(Retire, OnlyHeldValuesAreVisitedUnlessAllAreAskedFor) {
    (void)retire_values(database_, {first_}, "x");
    int visited = 0;
    for_each_record(database_, {.of = compound_}, [&](const auto &record) {
        EXPECT_EQ(record.id, second_);
        ++visited;
    });
    EXPECT_EQ(visited, 1);
}

TEST_F(Retire, KeepsTheFirstReason) {
    (void)retire_values(database_, {first_}, "first");
    const RetireSummary summary = retire_values(database_, {first_, second_}, "later");
    EXPECT_EQ(summary.changed, 1U);
    EXPECT_EQ(summary.unchanged, 1U);
    EXPECT_EQ(all()[0].withdrawn->detail.find("first"), 0U);
}

TEST_F(Retire, AnUnknownIdChangesNothing) {
    EXPECT_THROW((void)retire_values(database_, {first_, MeasurementId{999}}, "x"), InputError);
    EXPECT_THROW((void)take_back_values(database_, {MeasurementId{999}}, "x"), InputError);
    EXPECT_THROW((void)retire_system(database_, "none", "x"), InputError);
    EXPECT_EQ(held(), 2U);
    EXPECT_EQ(library_.number("SELECT count(*) FROM change WHERE action = 'retire'"), 0);
}

TEST_F(Retire, CanBeTakenBackAndTheHistoryStays) {
    (void)retire_values(database_, {first_}, "wrong lane");
    EXPECT_EQ(take_back_values(database_, {first_, second_}, "right after all").changed, 1U);
    EXPECT_EQ(held(), 2U);
    EXPECT_EQ(library_.number("SELECT count(*) FROM change WHERE detail LIKE 'wrong lane%' OR "
                              "detail LIKE 'right after all%'"),
              2);
}

TEST_F(Retire, ARetiredSystemTakesAllItsValuesAlong) {
    EXPECT_EQ(retire_system(database_, "silica", "lot recalled"), 2U);
    EXPECT_EQ(held(), 0U);
    EXPECT_TRUE(find_system(database_, "silica")->retired);
    EXPECT_EQ(retirement_of_system(database_, system_)->detail.find("lot recalled"), 0U);
    EXPECT_EQ(retire_system(database_, "silica", "again"), std::nullopt);
}

TEST_F(Retire, ValuesLearnedOnARetiredSystemDoNotCount) {
    (void)retire_system(database_, "silica", "lot recalled");
    library_.value(compound_, system_, 0.3);
    EXPECT_EQ(held(), 0U);
    EXPECT_EQ(take_back_system(database_, "silica", "lot was fine"), 3U);
    EXPECT_EQ(held(), 3U);
    EXPECT_EQ(take_back_system(database_, "silica", "again"), std::nullopt);
}

TEST_F(Retire, TakingASystemBackLeavesValuesRetiredThatWereBefore) {
    (void)retire_values(database_, {first_}, "wrong lane");
    (void)retire_system(database_, "silica", "lot recalled");
    EXPECT_THROW((void)take_back_values(database_, {second_}, "x"), InputError);
    EXPECT_EQ(take_back_system(database_, "silica", "lot was fine"), 1U);
    EXPECT_EQ(held(), 1U);
    EXPECT_EQ(all()[0].state, ValueState::retired);
}

TEST_F(Retire, ARetiredCompoundTakesAllItsValuesAlong) {
    const auto other = library_.compound('B', "beta");
    library_.value(other, system_, 0.5);
    EXPECT_EQ(retire_compound(database_, "Alpha", "wrong bottle"), 2U);
    EXPECT_EQ(held(), 1U);
    EXPECT_TRUE(find_compound(database_, compound_)->retired);
    EXPECT_EQ(retirement_of_compound(database_, compound_)->detail,
              "wrong bottle (compound alpha)");
    EXPECT_EQ(retire_compound(database_, "alpha", "again"), std::nullopt);
    library_.value(compound_, system_, 0.3); // does not count either
    EXPECT_EQ(held(), 1U);
    EXPECT_THROW((void)take_back_values(database_, {first_}, "x"), InputError);
    EXPECT_EQ(take_back_compound(database_, "alpha", "bottle was right"), 3U);
    EXPECT_EQ(take_back_compound(database_, "alpha", "again"), std::nullopt);
    EXPECT_EQ(held(), 4U);
    EXPECT_THROW((void)retire_compound(database_, "gamma", "x"), InputError);
}

TEST_F(Retire, AValueCountsOnlyWhileNeitherItsCompoundNorItsSystemIsRetired) {
    for (const bool system_first : {true, false}) {
        (void)retire_values(database_, {first_}, "wrong lane");
        EXPECT_EQ(retire_system(database_, "silica", "lot"), 1U);
        EXPECT_EQ(retire_compound(database_, "alpha", "bottle"), 0U);
        if (system_first) {
            EXPECT_EQ(take_back_system(database_, "silica", "fine"), 0U);
            EXPECT_EQ(held(), 0U);
            EXPECT_EQ(take_back_compound(database_, "alpha", "fine"), 1U);
        } else {
            EXPECT_EQ(take_back_compound(database_, "alpha", "fine"), 0U);
            EXPECT_EQ(held(), 0U);
            EXPECT_EQ(take_back_system(database_, "silica", "fine"), 1U);
        }
        EXPECT_EQ(held(), 1U);
        EXPECT_EQ(take_back_values(database_, {first_}, "right lane").changed, 1U);
        EXPECT_EQ(held(), 2U);
    }
}

TEST_F(Retire, ASupersededValueNamesItsSuccessor) {
    database_.execute(
        "UPDATE measurement SET superseded_by = " + std::to_string(as_number(second_)) +
        " WHERE id = " + std::to_string(as_number(first_)));
    const auto records = all();
    EXPECT_EQ(records[0].state, ValueState::superseded);
    EXPECT_EQ(records[0].superseded_by, second_);
    EXPECT_TRUE(records[0].withdrawn);
    EXPECT_EQ(held(), 1U);
}

} // namespace
} // namespace cospot::library

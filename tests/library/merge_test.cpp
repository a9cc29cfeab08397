#include "library/merge.h"

#include "library/ladders.h"
#include "library/overview.h"
#include "library/retire.h"
#include "library/value_records.h"
#include "sample_library.h"
#include "shared/error.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdint>
#include <fstream>
#include <iterator>
#include <utility>
#include <vector>

namespace cospot::library {
namespace {

namespace fs = std::filesystem;

std::string content_of(const fs::path &file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

class Merge : public testing::Test {
protected:
    MergeSummary merge(bool rename_conflicts = false) {
        return merge_library(here_.database, there_.file, {rename_conflicts});
    }
    std::size_t held(const std::string &system) {
        return values_on_system(here_.database, find_system(here_.database, system)->id,
                                Quantity::Rf)
            .size();
    }

    SampleLibrary here_;
    SampleLibrary there_;
};

TEST_F(Merge, TellsHowManyValuesAreDone) {
    const auto alpha = there_.compound('A', "alpha");
    const auto silica = there_.system("silica", "hexane:ethyl acetate 1:1");
    {
        Transaction transaction(there_.database);
        const auto change = begin_change(there_.database, "test", "");
        Measurement value;
        value.compound = alpha;
        value.system = silica;
        value.run = find_or_add_run(there_.database, silica, {}, change);
        for (int i = 0; i < 2500; ++i) {
            value.value = 0.0001 * i;
            insert_measurement(there_.database, value, change);
        }
        transaction.commit();
    }
    std::vector<std::pair<std::size_t, std::size_t>> told;
    const auto summary = merge_library(
        here_.database, there_.file,
        {false, [&](std::size_t done, std::size_t all) { told.emplace_back(done, all); }});
    EXPECT_EQ(summary.values_added, 2500U);
    EXPECT_EQ(told, (std::vector<std::pair<std::size_t, std::size_t>>{
                        {0, 2500}, {1000, 2500}, {2000, 2500}}));
}

TEST_F(Merge, TakesOverAll) {
    const auto alpha = there_.compound('A', "alpha", "64-17-5");
    {
        Transaction transaction(there_.database);
        add_synonym(there_.database, alpha, "first", ChangeId{1});
        transaction.commit();
    }
    System system = invented_system("silica", "hexane:ethyl acetate 3:1");
    system.stationary_phase = "silica gel";
    system.particle_um = 15.0;
    there_.value(alpha, there_.system(system), 0.25, "plate 1");
    const MergeSummary summary = merge();
    EXPECT_EQ(summary.compounds_added, 1U);
    EXPECT_EQ(summary.systems_added, 1U);
    EXPECT_EQ(summary.values_added, 1U);
    EXPECT_TRUE(summary.findings.empty());
    const auto compound = find_by_name(here_.database, "first");
    ASSERT_EQ(compound.size(), 1U);
    EXPECT_EQ(compound.front().name, "alpha");
    EXPECT_EQ(compound.front().cas, "64-17-5");
    const auto taken = find_system(here_.database, "silica");
    ASSERT_TRUE(taken);
    EXPECT_EQ(taken->particle_um, 15.0);
    EXPECT_EQ(eluent_of(here_.database, taken->id).size(), 2U);
    EXPECT_EQ(here_.number("SELECT count(*) FROM run WHERE name = 'plate 1'"), 1);
    EXPECT_EQ(here_.number("SELECT count(*) FROM change WHERE action = 'merge'"), 1);
}

TEST_F(Merge, MergingAgainAddsNothing) {
    const auto alpha = there_.compound('A', "alpha");
    const auto system = there_.system("silica", "hexane");
    there_.value(alpha, system, 0.2, "plate 1");
    there_.value(alpha, system, 0.2, "plate 1");
    there_.value(alpha, system, 0.3, "plate 2");
    EXPECT_EQ(merge().values_added, 3U);
    const MergeSummary again = merge();
    EXPECT_EQ(again.values_added, 0U);
    EXPECT_EQ(again.values_known, 3U);
    EXPECT_EQ(again.compounds_added + again.systems_added + again.names_added, 0U);
    EXPECT_EQ(held("silica"), 3U);
}

TEST_F(Merge, ValuesThatBothHoldAreStoredOnceWithTheirReplicates) {
    for (SampleLibrary *library : {&here_, &there_}) {
        // Ids differ between the libraries.
        if (library == &there_) {
            library->compound('Z', "zeta");
            library->system("other", "acetone");
        }
        const auto alpha = library->compound('A', "alpha");
        library->value(alpha, library->system("silica", "hexane"), 0.2, "plate 1");
    }
    there_.value(CompoundId{2}, SystemId{2}, 0.2, "plate 1");
    there_.value(CompoundId{2}, SystemId{2}, 0.2, "plate 2");
    const MergeSummary summary = merge();
    EXPECT_EQ(summary.values_known, 1U);
    EXPECT_EQ(summary.values_added, 2U); // a second replicate, and another run
    EXPECT_EQ(here_.number("SELECT count(*) FROM run"), 2);
}

TEST_F(Merge, ContradictingConditionsAreRefusedAndReported) {
    here_.system("silica", "hexane:ethyl acetate 3:1");
    const auto alpha = there_.compound('A', "alpha");
    there_.value(alpha, there_.system("silica", "hexane:ethyl acetate 1:1"), 0.4);
    there_.value(alpha, there_.system("alumina", "hexane"), 0.5);
    const MergeSummary summary = merge();
    EXPECT_EQ(summary.values_refused, 1U);
    EXPECT_EQ(summary.values_added, 1U);
    EXPECT_EQ(held("silica"), 0U);
    ASSERT_EQ(summary.findings.size(), 1U);
    EXPECT_EQ(summary.findings[0].kind, "system");
    EXPECT_EQ(summary.findings[0].subject, "silica");
    EXPECT_NE(summary.findings[0].there.find("1:1"), std::string::npos);
}

TEST_F(Merge, ContradictingConditionsCanBeStoredUnderAnotherName) {
    here_.system("silica", "hexane:ethyl acetate 3:1");
    const auto alpha = there_.compound('A', "alpha");
    there_.value(alpha, there_.system("silica", "hexane:ethyl acetate 1:1"), 0.4);
    const MergeSummary summary = merge(true);
    EXPECT_EQ(summary.systems_renamed, 1U);
    EXPECT_EQ(summary.findings.size(), 1U);
    EXPECT_EQ(held("silica"), 0U);
    EXPECT_EQ(held("silica (from sample.db)"), 1U);
    EXPECT_EQ(merge(true).values_added, 0U);
    EXPECT_EQ(here_.number("SELECT count(*) FROM system"), 2);
}

TEST_F(Merge, EveryConditionCanContradict) {
    System gc = invented_system("gc", "helium");
    gc.technique = Technique::gc;
    gc.stationary_phase = "dimethylsilicone";
    gc.programme = "60 C, 5 C/min to 240 C";
    gc.scale = "n-alkane";
    gc.column_length_m = 30.0;
    gc.column_diameter_mm = 0.25;
    gc.film_um = 0.25;
    gc.particle_um = 5.0;
    gc.reference = "decane";
    std::vector<System> others(10, gc);
    others[0].technique = Technique::hplc;
    others[1].stationary_phase = "polyethylene glycol";
    others[2].programme = "isothermal 120 C";
    others[3].scale = "fatty acid methyl ester";
    others[4].column_length_m = 60.0;
    others[5].column_diameter_mm = 0.32;
    others[6].film_um = 1.0;
    others[7].particle_um = 3.0;
    others[8].mobile_phase = "hydrogen";
    others[9].reference = "undecane";
    here_.system(gc);
    for (const System &other : others) {
        SampleLibrary there;
        there.system(other);
        EXPECT_EQ(merge_library(here_.database, there.file, {}).systems_refused, 1U);
    }
    SampleLibrary same;
    same.system(gc);
    EXPECT_EQ(merge_library(here_.database, same.file, {}).systems_known, 1U);
}

System relative_to(const std::string &reference) {
    System system = invented_system("C18", "water:acetonitrile 1:1");
    system.technique = Technique::hplc;
    system.reference = reference;
    return system;
}

TEST_F(Merge, AnotherNameOfTheReferenceIsNoContradiction) {
    here_.compound('A', "alpha");
    here_.system(relative_to("alpha"));
    there_.compound('A', "first of the series");
    there_.system(relative_to("First of the series"));
    EXPECT_TRUE(merge().findings.empty());
    EXPECT_EQ(find_system(here_.database, "C18")->reference, "alpha");
}

TEST_F(Merge, AnUnstatedReferenceIsFilledIn) {
    here_.system(relative_to(""));
    there_.system(relative_to("alpha"));
    EXPECT_TRUE(merge().findings.empty());
    EXPECT_EQ(find_system(here_.database, "C18")->reference, "alpha");
}

TEST_F(Merge, TheSameMobilePhaseWrittenOtherwiseIsNoContradiction) {
    here_.system("silica", "hexane:ethyl acetate 3:1");
    there_.system("silica", "Ethyl acetate/hexane 25/75");
    EXPECT_TRUE(merge().findings.empty());
}

TEST_F(Merge, UnstatedConditionsAreFilledIn) {
    here_.system(invented_system("silica", ""));
    there_.system("silica", "hexane:ethyl acetate 3:1");
    const MergeSummary summary = merge();
    EXPECT_TRUE(summary.findings.empty());
    EXPECT_EQ(summary.remarks.size(), 1U);
    const auto system = find_system(here_.database, "silica");
    EXPECT_EQ(system->mobile_phase, "hexane:ethyl acetate 3:1");
    EXPECT_EQ(eluent_of(here_.database, system->id).size(), 2U);
}

TEST_F(Merge, OneNameForTwoStructuresIsReportedOnce) {
    here_.compound('A', "alpha");
    there_.compound('B', "Alpha");
    const MergeSummary summary = merge();
    ASSERT_EQ(summary.findings.size(), 1U);
    EXPECT_EQ(summary.findings[0].kind, "name");
    EXPECT_EQ(find_by_name(here_.database, "alpha").size(), 2U);
    EXPECT_TRUE(merge().findings.empty());
}

TEST_F(Merge, AnotherNameForOneStructureBecomesASynonym) {
    here_.compound('A', "alpha");
    there_.compound('A', "prime");
    const MergeSummary summary = merge();
    EXPECT_EQ(summary.names_added, 1U);
    EXPECT_EQ(summary.compounds_known, 1U);
    EXPECT_EQ(find_by_name(here_.database, "prime").front().name, "alpha");
}

TEST_F(Merge, RegistryNumbersThatDifferAreReported) {
    here_.compound('A', "alpha", "64-17-5");
    there_.compound('A', "alpha", "67-56-1"); // another number for the same structure
    here_.compound('B', "beta", "67-64-1");
    there_.compound('C', "gamma", "67-64-1"); // the same number for another structure
    here_.compound('D', "delta");
    there_.compound('D', "delta", "71-43-2"); // a number where there was none
    const MergeSummary summary = merge();
    ASSERT_EQ(summary.findings.size(), 2U);
    EXPECT_EQ(summary.findings[0].kind, "registry number");
    EXPECT_EQ(summary.findings[1].kind, "registry number");
    EXPECT_EQ(find_by_name(here_.database, "alpha").front().cas, "64-17-5");
    EXPECT_EQ(find_by_name(here_.database, "delta").front().cas, "71-43-2");
}

TEST_F(Merge, RetiredAndSupersededValuesKeepThatState) {
    const auto alpha = there_.compound('A', "alpha");
    const auto system = there_.system("silica", "hexane");
    const auto retired = there_.value(alpha, system, 0.1);
    const auto old = there_.value(alpha, system, 0.2);
    const auto corrected = there_.value(alpha, system, 0.3);
    (void)retire_values(there_.database, {retired}, "wrong lane");
    there_.database.execute(
        fmt::format("UPDATE measurement SET superseded_by = {} WHERE id = {}", corrected, old));
    EXPECT_EQ(merge().values_added, 3U);
    EXPECT_EQ(held("silica"), 1U);
    std::vector<MeasurementRecord> records;
    for_each_record(here_.database, {.of = SystemId{1}, .which = Visit::all},
                    [&](const auto &record) { records.push_back(record); });
    ASSERT_EQ(records.size(), 3U);
    for (const MeasurementRecord &record : records) {
        if (record.value == 0.1) {
            EXPECT_EQ(record.state, ValueState::retired);
            EXPECT_EQ(record.withdrawn->detail.find("wrong lane"), 0U);
        } else if (record.value == 0.2) {
            EXPECT_EQ(record.state, ValueState::superseded);
            const auto successor = here_.number("SELECT id FROM measurement WHERE value = 0.3");
            EXPECT_EQ(record.superseded_by, MeasurementId{successor});
        } else {
            EXPECT_EQ(record.state, ValueState::held);
        }
    }
    EXPECT_TRUE(merge().findings.empty());
}

TEST_F(Merge, AValueInAnotherStateStaysAsItIsHereAndIsReported) {
    for (SampleLibrary *library : {&here_, &there_}) {
        const auto alpha = library->compound('A', "alpha");
        const auto system = library->system("silica", "hexane");
        library->value(alpha, system, 0.1);
        library->value(alpha, system, 0.2);
    }
    (void)retire_values(here_.database, {MeasurementId{1}}, "wrong lane");
    (void)retire_values(there_.database, {MeasurementId{2}}, "smudged");
    const MergeSummary summary = merge();
    EXPECT_EQ(summary.values_known, 2U);
    EXPECT_EQ(summary.findings.size(), 2U);
    EXPECT_EQ(held("silica"), 1U);
    EXPECT_EQ(here_.number("SELECT retired_change_id IS NULL FROM measurement WHERE id = 2"), 1);
}

TEST_F(Merge, ReplicatesOfEachStateMeetThoseOfTheSameState) {
    for (SampleLibrary *library : {&here_, &there_}) {
        const auto alpha = library->compound('A', "alpha");
        const auto system = library->system("silica", "hexane");
        library->value(alpha, system, 0.1);
        library->value(alpha, system, 0.1);
    }
    (void)retire_values(here_.database, {MeasurementId{1}}, "wrong lane");
    (void)retire_values(there_.database, {MeasurementId{2}}, "wrong lane");
    EXPECT_TRUE(merge().findings.empty());
}

TEST_F(Merge, RetiredSystemsStayRetiredAndConflictsAreReported) {
    const auto alpha = there_.compound('A', "alpha");
    there_.value(alpha, there_.system("silica", "hexane"), 0.1);
    (void)retire_system(there_.database, "silica", "lot recalled");
    EXPECT_TRUE(merge().findings.empty());
    EXPECT_EQ(held("silica"), 0U);
    EXPECT_TRUE(find_system(here_.database, "silica")->retired);
    EXPECT_EQ(take_back_system(here_.database, "silica", "lot was fine"), 1U);

    const MergeSummary summary = merge();
    ASSERT_EQ(summary.findings.size(), 2U); // the system, and its value
    EXPECT_EQ(summary.findings[0].kind, "state");
    EXPECT_EQ(held("silica"), 1U);
}

TEST_F(Merge, ValuesForASystemThatIsRetiredHereDoNotCount) {
    here_.system("silica", "hexane");
    (void)retire_system(here_.database, "silica", "lot recalled");
    const auto alpha = there_.compound('A', "alpha");
    there_.value(alpha, there_.system("silica", "hexane"), 0.1);
    const MergeSummary summary = merge();
    EXPECT_EQ(summary.values_added, 1U);
    EXPECT_EQ(summary.findings.size(), 1U);
    EXPECT_EQ(held("silica"), 0U);
}

TEST_F(Merge, LaddersComeAlongAndDifferentOnesAreReported) {
    const auto add_run = [](SampleLibrary &library, const std::vector<LadderMember> &ladder) {
        const auto system = library.system("gc", "helium");
        Transaction transaction(library.database);
        const auto run =
            find_or_add_run(library.database, system, {"g1", "2024-01-06", "", ""}, ChangeId{1});
        store_ladder(library.database, run, ladder);
        transaction.commit();
    };
    add_run(there_, {{8.0, 3.0}, {9.0, 4.0}});
    EXPECT_TRUE(merge().findings.empty());
    EXPECT_EQ(ladder_of_run(here_.database, RunId{1}).size(), 2U);
    EXPECT_TRUE(merge().findings.empty());

    SampleLibrary third;
    add_run(third, {{8.0, 3.1}, {9.0, 4.1}});
    const MergeSummary summary = merge_library(here_.database, third.file, {});
    ASSERT_EQ(summary.findings.size(), 1U);
    EXPECT_EQ(summary.findings[0].kind, "ladder");
    EXPECT_EQ(ladder_of_run(here_.database, RunId{1})[0].retention_time_min, 3.0);
}

TEST_F(Merge, TautomersAreFilledIn) {
    here_.compound('A', "alpha");
    there_.compound('A', "alpha");
    there_.database.execute("UPDATE compound SET tautomer = 'hash'");
    (void)merge();
    EXPECT_EQ(find_by_name(here_.database, "alpha").front().tautomer, "hash");
}

TEST_F(Merge, AnOlderFormatIsReadWithoutTouchingIt) {
    const TemporaryFolder folder;
    create_filled_format_1(folder / "old.db");
    const std::string before = content_of(folder / "old.db");
    EXPECT_EQ(merge_library(here_.database, folder / "old.db", {}).values_added, 1U);
    EXPECT_EQ(content_of(folder / "old.db"), before);
    EXPECT_EQ(std::distance(fs::directory_iterator(folder / ""), fs::directory_iterator()), 1);
}

TEST_F(Merge, LeavesTheOtherLibraryUntouched) {
    const TemporaryFolder folder;
    there_.value(there_.compound('A', "alpha"), there_.system("silica", "hexane"), 0.1);
    there_.database.execute("PRAGMA wal_checkpoint(TRUNCATE)");
    fs::copy(there_.file, folder / "other.db");
    const std::string before = content_of(folder / "other.db");
    EXPECT_EQ(merge_library(here_.database, folder / "other.db", {}).values_added, 1U);
    EXPECT_EQ(content_of(folder / "other.db"), before);
    EXPECT_EQ(std::distance(fs::directory_iterator(folder / ""), fs::directory_iterator()), 1);
}

TEST_F(Merge, RefusesItselfAndWhatIsNoLibrary) {
    const TemporaryFolder folder;
    EXPECT_THROW((void)merge_library(here_.database, here_.file, {}), InputError);
    fs::create_symlink(here_.file, folder / "link.db");
    EXPECT_THROW((void)merge_library(here_.database, folder / "link.db", {}), InputError);
    EXPECT_THROW((void)merge_library(here_.database, folder / "none.db", {}), InputError);
    std::ofstream(folder / "text.db") << "compound,smiles\n";
    EXPECT_THROW((void)merge_library(here_.database, folder / "text.db", {}), InputError);
    there_.database.execute("PRAGMA user_version = 999");
    EXPECT_THROW((void)merge(), InputError);
}

TEST_F(Merge, IsAllOrNothing) {
    const auto alpha = there_.compound('A', "alpha");
    there_.value(alpha, there_.system("silica", "hexane"), 0.1);
    // A retirement without its change stops the merge at the last value.
    there_.database.execute("PRAGMA foreign_keys = OFF; "
                            "UPDATE measurement SET retired_change_id = 999");
    EXPECT_THROW((void)merge(), DatabaseError);
    EXPECT_EQ(here_.number("SELECT (SELECT count(*) FROM compound) + (SELECT count(*) FROM system)"
                           " + (SELECT count(*) FROM run) + (SELECT count(*) FROM change)"),
              0);
}

} // namespace
} // namespace cospot::library

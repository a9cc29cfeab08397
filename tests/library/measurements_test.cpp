#include "library/measurements.h"

#include "library/changes.h"
#include "library/compounds.h"
#include "library/runs.h"
#include "library/systems.h"
#include "temporary_library.h"

#include <gtest/gtest.h>

namespace cospot::library {
namespace {

Compound caffeine() {
    return {.id = {},
            .inchikey = "RYYVLZVUVIJVGH-UHFFFAOYSA-N",
            .parent_inchikey = "RYYVLZVUVIJVGH-UHFFFAOYSA-N",
            .smiles = "Cn1c(=O)c2c(ncn2C)n(C)c1=O",
            .name = "caffeine",
            .cas = "58-08-2",
            .formula = "C8H10N4O2",
            .average_mass = 194.19,
            .monoisotopic_mass = 194.0804,
            .open_stereo = false};
}

System silica() {
    System system;
    system.name = "silica-EA";
    system.technique = Technique::tlc;
    system.mobile_phase = "ethyl acetate";
    return system;
}

class Measurements : public testing::Test {
protected:
    Measurements() {
        Transaction transaction(database_);
        const auto change = begin_change(database_, "test", "");
        compound_ = add_compound(database_, caffeine(), change);
        system_ = add_system(database_, silica(), {{"ethyl acetate", 1.0}}, change);
        transaction.commit();
    }

    /// Learns the values as one change, all in run `run`; returns how many were new.
    int learn(const std::vector<double> &values, const std::string &run = "") {
        Transaction transaction(database_);
        const auto change = begin_change(database_, "test", "");
        MeasurementWriter writer(database_, change);
        int added = 0;
        for (const double value : values) {
            Measurement measurement;
            measurement.compound = compound_;
            measurement.system = system_;
            measurement.run = find_or_add_run(database_, system_, {run, "", "", ""}, change);
            measurement.value = value;
            added += writer.add(measurement) ? 1 : 0;
        }
        transaction.commit();
        return added;
    }

    TemporaryLibrary library_;
    Database database_ = library_.open();
    CompoundId compound_{};
    SystemId system_{};
};

TEST_F(Measurements, EqualValuesOfOneChangeAreReplicates) {
    EXPECT_EQ(learn({0.2, 0.2, 0.3}), 3);
    EXPECT_EQ(values_on_system(database_, system_, Quantity::Rf).size(), 3U);
}

TEST_F(Measurements, LearningTwiceStoresOnce) {
    learn({0.2, 0.2, 0.3});
    EXPECT_EQ(learn({0.2, 0.2, 0.3}), 0);
    EXPECT_EQ(learn({0.2, 0.2, 0.2}), 1);
    EXPECT_EQ(values_on_system(database_, system_, Quantity::Rf).size(), 4U);
}

TEST_F(Measurements, SameValueInAnotherRunIsNew) {
    learn({0.2}, "plate 1");
    EXPECT_EQ(learn({0.2}, "plate 2"), 1);
}

TEST_F(Measurements, ValuesTellWhetherTheirRunIsNamed) {
    learn({0.2}, "plate 1");
    learn({0.3});
    const auto values = values_on_system(database_, system_, Quantity::Rf);
    ASSERT_EQ(values.size(), 2U);
    EXPECT_NE(values[0].run_is_named, values[1].run_is_named);
}

TEST_F(Measurements, NothingOfAFailedChangeIsStored) {
    try {
        Transaction transaction(database_);
        const auto change = begin_change(database_, "test", "");
        find_or_add_run(database_, system_, {"lost", "", "", ""}, change);
        throw DatabaseError("power cut");
    } catch (const DatabaseError &) {
    }
    Statement runs = database_.prepare("SELECT count(*) FROM run");
    ASSERT_TRUE(runs.step());
    EXPECT_EQ(runs.integer(0), 0);
}

TEST_F(Measurements, CompoundIsFoundByEveryName) {
    Transaction transaction(database_);
    EXPECT_TRUE(add_synonym(database_, compound_, "theine", begin_change(database_, "test", "")));
    EXPECT_FALSE(add_synonym(database_, compound_, "Caffeine", ChangeId{1}));
    transaction.commit();
    for (const char *name :
         {"caffeine", "CAFFEINE", "Theine", "58-08-2", "RYYVLZVUVIJVGH-UHFFFAOYSA-N"}) {
        ASSERT_EQ(find_by_name(database_, name).size(), 1U) << name;
        EXPECT_EQ(find_by_name(database_, name).front().formula, "C8H10N4O2");
    }
    EXPECT_TRUE(find_by_name(database_, "tea").empty());
}

TEST_F(Measurements, SystemReadsBackAsWritten) {
    System gc;
    gc.name = "wax";
    gc.technique = Technique::gc;
    gc.programme = "60 C, 5 C/min to 240 C";
    gc.scale = "n-alkane";
    gc.column_length_m = 30.0;
    gc.film_um = 0.25;
    {
        Transaction transaction(database_);
        add_system(database_, gc, {{"helium", 1.0}}, begin_change(database_, "test", ""));
        transaction.commit();
    }
    const auto read = find_system(database_, "wax");
    ASSERT_TRUE(read);
    EXPECT_EQ(read->technique, Technique::gc);
    EXPECT_EQ(read->programme, gc.programme);
    EXPECT_EQ(read->column_length_m, 30.0);
    EXPECT_EQ(read->particle_um, std::nullopt);
    EXPECT_EQ(all_systems(database_).size(), 2U);
}

} // namespace
} // namespace cospot::library

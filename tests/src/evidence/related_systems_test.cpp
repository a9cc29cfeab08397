// Which other systems are compared, and that large kinds are left out by themselves.
#include "../../library/sample_library.h"
#include "evidence/related_systems.h"

#include <gtest/gtest.h>

#include <fmt/format.h>

#include <string>

namespace cospot {
namespace {

/// Two plates and two columns; the columns hold 12 values together, the plates 4.
class RelatedSystemsTest : public testing::Test {
protected:
    RelatedSystemsTest() {
        hold("plate a", Technique::tlc, Quantity::Rf, 2);
        hold("plate b", Technique::tlc, Quantity::Rf, 2);
        hold("column a", Technique::hplc, Quantity::k, 6);
        hold("column b", Technique::hplc, Quantity::k, 6);
    }

    void hold(const std::string &name, Technique technique, Quantity quantity, int values) {
        library::System system = library::invented_system(name, "");
        system.technique = technique;
        const auto id = library_.system(system);
        library::Transaction transaction(library_.database);
        const auto change = library::begin_change(library_.database, "test", "");
        for (int i = 0; i < values; ++i) {
            library::Compound compound =
                library::invented_compound('A', fmt::format("{} {}", name, i));
            compound.inchikey = fmt::format("A{:013}-UHFFFAOYSA-N", ++compounds_);
            library::Measurement measurement;
            measurement.compound = library::add_compound(library_.database, compound, change);
            measurement.system = id;
            measurement.quantity = quantity;
            measurement.run =
                library::find_or_add_run(library_.database, id, {"one", "", "", ""}, change);
            measurement.value = 0.5;
            library::insert_measurement(library_.database, measurement, change);
        }
        transaction.commit();
    }

    ModelledSystem modelled(const std::string &name, Quantity quantity) {
        return {library::find_system(library_.database, name).value(), quantity};
    }

    library::SampleLibrary library_;
    int compounds_ = 0;
};

TEST_F(RelatedSystemsTest, EachTechniqueHasItsOwnLimitOfSystems) {
    constexpr std::int64_t most = 10;
    const auto plate = modelled("plate a", Quantity::Rf);
    const auto column = modelled("column a", Quantity::k);
    const RelatedSystems of_plate = related_systems(library_.database, {plate}, most);
    ASSERT_EQ(of_plate.systems.size(), 1U);
    EXPECT_EQ(of_plate.systems[0].system.name, "plate b");
    EXPECT_TRUE(of_plate.notes.empty());
    const RelatedSystems of_both = related_systems(library_.database, {column, plate}, most);
    ASSERT_EQ(of_both.systems.size(), 1U);
    EXPECT_EQ(of_both.systems[0].system.name, "plate b");
    ASSERT_EQ(of_both.notes.size(), 1U);
    EXPECT_NE(of_both.notes[0].find("other hplc systems tell by their k is left out"),
              std::string::npos)
        << of_both.notes[0];
    EXPECT_EQ(related_systems(library_.database, {column, plate}).systems.size(), 2U);
}

TEST_F(RelatedSystemsTest, ASystemAloneInItsTechniqueLeavesNothingOut) {
    hold("big", Technique::gc, Quantity::tR, 12);
    const RelatedSystems related =
        related_systems(library_.database, {modelled("big", Quantity::tR)}, 10);
    EXPECT_TRUE(related.systems.empty());
    EXPECT_TRUE(related.notes.empty());
}

} // namespace
} // namespace cospot

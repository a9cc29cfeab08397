#include "audit/elution_order.h"

#include "audited_systems.h"

#include <gtest/gtest.h>

namespace cospot {
namespace {

constexpr std::int64_t kMoved = 4;

/// Systems on which `compounds` compounds elute in the order of their numbers; compound 4 stands at
/// the end of the last one.
std::vector<AuditedSystem> systems(int count, std::int64_t compounds, double distance) {
    std::vector<AuditedSystem> result;
    for (int s = 0; s < count; ++s) {
        SystemBuilder builder("system " + std::to_string(s), Quantity::RI);
        for (std::int64_t compound = 1; compound <= compounds; ++compound) {
            const bool is_moved = compound == kMoved && s + 1 == count;
            builder.add(compound,
                        800.0 + 10.0 * s +
                            distance * static_cast<double>(is_moved ? compounds + 1 : compound));
        }
        result.push_back(builder.system());
    }
    return result;
}

std::vector<Finding> findings_of(const std::vector<AuditedSystem> &all) {
    OrderTable table;
    for (const AuditedSystem &system : all) {
        add_to_order_table(table, system);
    }
    return elution_order_findings(table);
}

TEST(ElutionOrder, TheCompoundOutOfOrderIsFoundAndItsPartnersAreNot) {
    const auto findings = findings_of(systems(4, 12, 30.0));
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_EQ(findings[0].subject, "compound 4 on system 3");
    EXPECT_NE(findings[0].text.find("8 of 11"), std::string::npos) << findings[0].text;
    EXPECT_TRUE(findings[0].rows[0].is_suspect);
    EXPECT_EQ(findings[0].rows[0].measurement, library::MeasurementId{kMoved});
    EXPECT_FALSE(findings[0].rows[1].is_suspect);
}

TEST(ElutionOrder, OneOtherSystemIsNotEnough) {
    EXPECT_TRUE(findings_of(systems(2, 12, 30.0)).empty());
    EXPECT_EQ(findings_of(systems(3, 12, 30.0)).size(), 1U);
}

TEST(ElutionOrder, ValuesCloserThanFourSpreadsHaveNoOrder) {
    // The assumed spread of an index is 3: neighbours are 1 apart, the ends 12.
    EXPECT_TRUE(findings_of(systems(4, 12, 1.0)).empty());
}

TEST(ElutionOrder, NoFindingWhereTheOtherSystemsDisagree) {
    std::vector<AuditedSystem> all = systems(4, 12, 30.0);
    all[0] = all[3]; // the same order on a second system
    all[0].name = "system 0";
    EXPECT_TRUE(findings_of(all).empty());
}

TEST(ElutionOrder, OnlySystemsOfOneStationaryPhaseAreCompared) {
    std::vector<AuditedSystem> all = systems(3, 12, 30.0);
    all[0].stationary_phase = "alumina";
    EXPECT_TRUE(findings_of(all).empty());
    all[0].stationary_phase = " Silica gel";
    EXPECT_EQ(findings_of(all).size(), 1U);
    for (AuditedSystem &system : all) {
        system.stationary_phase.clear();
    }
    EXPECT_TRUE(findings_of(all).empty());
}

TEST(ElutionOrder, SpotsNearTheFrontHaveNoOrder) {
    std::vector<AuditedSystem> all;
    for (int s = 0; s < 4; ++s) {
        SystemBuilder builder("plate " + std::to_string(s), Quantity::Rf);
        for (std::int64_t compound = 1; compound <= 6; ++compound) {
            builder.add(compound, s == 3 ? 0.94 : 0.1 * static_cast<double>(compound));
        }
        if (s == 3) {
            builder.system().compounds[0].values[0].value = 1.0;
        }
        all.push_back(builder.system());
    }
    EXPECT_TRUE(findings_of(all).empty());
    all[3].compounds[0].values[0].value = 1.0;
    for (std::size_t i = 1; i < 6; ++i) {
        all[3].compounds[i].values[0].value = 0.5;
    }
    EXPECT_EQ(findings_of(all).size(), 1U);
}

TEST(ElutionOrder, LargeFamiliesAreSampled) {
    const auto findings = findings_of(systems(4, 1000, 30.0));
    ASSERT_EQ(findings.size(), 1U);
    EXPECT_NE(findings[0].text.find("of 200"), std::string::npos) << findings[0].text;
}

} // namespace
} // namespace cospot

#include "fractions/column_plan.h"

#include "shared/error.h"

#include <gtest/gtest.h>

namespace cospot::fractions {
namespace {

PlateCompound compound(const std::string &name, double rf, Role role = Role::unknown,
                       std::optional<double> amount_mg = std::nullopt) {
    return {name, rf, role, amount_mg};
}

std::vector<PlanWarning> warnings_of(const ColumnPlan &plan) {
    std::vector<PlanWarning> warnings;
    for (const PlanFinding &finding : plan.findings) {
        warnings.push_back(finding.warning);
    }
    return warnings;
}

using Warnings = std::vector<PlanWarning>;

TEST(PlanColumn, OrdersCompoundsAsTheyLeave) {
    const ColumnPlan plan = plan_column({compound("slow", 0.1), compound("fast", 0.6)}, {});
    EXPECT_EQ(plan.compounds[0].name, "fast");
    EXPECT_NEAR(plan.bands[1].column_volumes.value(), 10.0, 1e-12);
    EXPECT_FALSE(plan.bands[1].band.has_value()); // no column is known
    EXPECT_NEAR(plan.neighbours[0].column_volumes.value(), 10.0 - 1.0 / 0.6, 1e-12);
}

TEST(PlanColumn, FractionsFollowFromVolumesPlatesAndForerun) {
    ColumnSettings settings;
    settings.hold_up_ml = 50.0;
    settings.plate_number = 100.0;
    settings.fraction_ml = 10.0;
    // Maximum at 200 mL, standard deviation 20 mL: 160 to 240 mL.
    const PlannedBand all = plan_column({compound("a", 0.25)}, settings).bands[0];
    EXPECT_EQ(all.first_fraction, 17); // fraction 17 begins at 160 mL
    EXPECT_EQ(all.last_fraction, 25);
    settings.forerun_ml = 100.0;
    const PlannedBand behind = plan_column({compound("a", 0.25)}, settings).bands[0];
    EXPECT_EQ(behind.first_fraction, 7);
    settings.forerun_ml = 1000.0;
    EXPECT_EQ(plan_column({compound("a", 0.25)}, settings).bands[0].last_fraction, 0);
}

// N from the resolution equation for equal plate numbers, R_s = sqrt(N)/2 (V_2-V_1)/(V_2+V_1)
// (IUPAC, Ettre 1993, with base widths 4 V / sqrt(N)), worked by hand.
TEST(PlanColumn, ResolutionDoesNotDependOnTheSizeOfTheColumn) {
    const std::vector<PlateCompound> pair{compound("a", 0.35), compound("b", 0.25)};
    EXPECT_NEAR(plan_column(pair, {}).neighbours[0].resolution.value(), 1.021, 0.001);
    ColumnSettings settings;
    settings.diameter_mm = 30.0;
    EXPECT_NEAR(plan_column(pair, settings).neighbours[0].resolution.value(), 1.021, 0.001);
    settings.plate_number = 600.0;
    EXPECT_NEAR(plan_column(pair, settings).neighbours[0].resolution.value(), 2.041, 0.001);
    settings.load_ml = 100.0;
    EXPECT_LT(plan_column(pair, settings).neighbours[0].resolution.value(), 1.5);
}

TEST(PlanColumn, TakesTheColumnFromTheTable) {
    const ColumnPlan plan = plan_column(
        {compound("a", 0.5, Role::impurity, 300.0), compound("b", 0.25, Role::target, 600.0)}, {});
    EXPECT_DOUBLE_EQ(plan.load_mg.value(), 900.0);
    EXPECT_DOUBLE_EQ(plan.diameter_mm.value(), 30.0);
    EXPECT_DOUBLE_EQ(plan.fraction_ml.value(), 20.0);
    EXPECT_NEAR(plan.silica_g.value(), 53.0, 0.1); // 0.5 g/mL, 7.069 cm2, 15 cm
    EXPECT_EQ(warnings_of(plan), Warnings{});
}

TEST(PlanColumn, OnlyNeighboursOfTheTargetDecideOnTheColumn) {
    const std::vector<PlateCompound> compounds{compound("a", 0.9), compound("b", 0.78),
                                               compound("c", 0.3, Role::target)};
    EXPECT_NEAR(plan_column(compounds, {}).difference.value(), 0.48, 1e-12);
    std::vector<PlateCompound> without_target = compounds;
    without_target[2].role = Role::unknown;
    EXPECT_NEAR(plan_column(without_target, {}).difference.value(), 0.12, 1e-12);
}

TEST(PlanColumn, APartOfTheSampleIsNoLoad) {
    EXPECT_FALSE(plan_column({compound("a", 0.5, Role::unknown, 100.0), compound("b", 0.2)}, {})
                     .load_mg.has_value());
}

TEST(PlanColumn, StartAndFrontHaveNoColumnVolume) {
    const ColumnPlan plan =
        plan_column({compound("front", 1.0), compound("start", 0.0), compound("a", 0.3)}, {});
    EXPECT_FALSE(plan.bands[0].column_volumes.has_value());
    EXPECT_FALSE(plan.bands[2].column_volumes.has_value());
    EXPECT_FALSE(plan.neighbours[0].resolution.has_value());
    EXPECT_EQ(warnings_of(plan), (Warnings{PlanWarning::at_front, PlanWarning::at_start}));
}

TEST(PlanColumn, WarnsOfWhatWillGoWrong) {
    EXPECT_EQ(warnings_of(plan_column({compound("a", 0.35), compound("b", 0.26)}, {})),
              Warnings{PlanWarning::close});
    EXPECT_EQ(warnings_of(plan_column({compound("a", 0.35), compound("b", 0.25)}, {})), Warnings{});
    EXPECT_EQ(warnings_of(plan_column({compound("a", 0.09, Role::target)}, {})),
              Warnings{PlanWarning::target_range});
    EXPECT_EQ(warnings_of(plan_column({compound("a", 0.51, Role::target)}, {})),
              Warnings{PlanWarning::target_range});
    EXPECT_EQ(warnings_of(plan_column({compound("a", 0.5, Role::target)}, {})), Warnings{});
    ColumnSettings settings;
    settings.load_mg = 5000.0;
    EXPECT_EQ(warnings_of(plan_column({compound("a", 0.3)}, settings)),
              Warnings{PlanWarning::beyond_table});
    settings.diameter_mm = 20.0;
    EXPECT_EQ(warnings_of(plan_column({compound("a", 0.3)}, settings)),
              Warnings{PlanWarning::overload});
    settings.load_mg = 400.0;
    EXPECT_EQ(warnings_of(plan_column({compound("a", 0.3)}, settings)), Warnings{});
}

TEST(PlanColumn, TellsWhenFractionsOfTheTargetHoldANeighbour) {
    ColumnSettings settings;
    settings.hold_up_ml = 50.0;
    settings.fraction_ml = 50.0;
    const std::vector<PlateCompound> pair{compound("a", 0.4, Role::target), compound("b", 0.3)};
    EXPECT_EQ(warnings_of(plan_column(pair, settings)), Warnings{PlanWarning::overlap});
    settings.plate_number = 5000.0;
    settings.fraction_ml = 5.0;
    EXPECT_EQ(warnings_of(plan_column(pair, settings)), Warnings{});
}

TEST(PlanColumn, WarnsOfATargetInTheForerun) {
    ColumnSettings settings;
    settings.hold_up_ml = 50.0;
    settings.plate_number = 100.0;
    settings.fraction_ml = 10.0;
    settings.forerun_ml = 159.0; // the band begins at 160 mL
    EXPECT_EQ(warnings_of(plan_column({compound("a", 0.25, Role::target)}, settings)), Warnings{});
    settings.forerun_ml = 161.0;
    EXPECT_EQ(warnings_of(plan_column({compound("a", 0.25, Role::target)}, settings)),
              Warnings{PlanWarning::in_forerun});
}

TEST(PlanColumn, RefusesSettingsThatNoColumnHas) {
    ColumnSettings settings;
    settings.diameter_mm = 0.0;
    EXPECT_THROW((void)plan_column({compound("a", 0.3)}, settings), InputError);
    settings = {};
    settings.load_mg = -5.0;
    EXPECT_THROW((void)plan_column({compound("a", 0.3)}, settings), InputError);
    settings = {};
    settings.hold_up_ml = 50.0;
    settings.load_ml = -1.0;
    EXPECT_THROW((void)plan_column({compound("a", 0.3)}, settings), InputError);
}

} // namespace
} // namespace cospot::fractions

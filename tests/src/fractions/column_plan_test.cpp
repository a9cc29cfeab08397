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
    EXPECT_NEAR(plan.bands[1].column_volumes.value(), 10.0, 1e-12); // by the plate
    EXPECT_FALSE(plan.bands[1].expected.has_value());               // no column is known
    // k of 9 and 2/3 on the plate, held kHoldRatio times as much on the column.
    EXPECT_NEAR(plan.neighbours[0].column_volumes.value(), kHoldRatio * (9.0 - 2.0 / 3.0), 1e-4);
}

TEST(PlanColumn, FractionsFollowFromVolumesAndForerun) {
    ColumnSettings settings;
    settings.hold_up_ml = 50.0;
    settings.fraction_ml = 10.0;
    const PlannedBand all = plan_column({compound("a", 0.25)}, settings).bands[0];
    const auto holds = [](int fraction, double ml) {
        return 10.0 * (fraction - 1) <= ml && ml < 10.0 * fraction;
    };
    EXPECT_TRUE(holds(all.first_fraction.value(), all.expected->start_ml));
    EXPECT_TRUE(holds(all.last_fraction.value(), all.expected->end_ml));
    EXPECT_TRUE(holds(all.first_in_95.value(), all.expected->whole.low_ml));
    EXPECT_TRUE(holds(all.last_in_95.value(), all.expected->whole.high_ml));
    EXPECT_LT(*all.first_in_95, *all.first_fraction);
    EXPECT_GT(*all.last_in_95, *all.last_fraction);
    settings.discarded_ml = 100.0;
    const PlannedBand behind = plan_column({compound("a", 0.25)}, settings).bands[0];
    EXPECT_EQ(behind.first_fraction, *all.first_fraction - 10);
    settings.discarded_ml = 5000.0;
    EXPECT_EQ(plan_column({compound("a", 0.25)}, settings).bands[0].last_fraction, 0);
}

// N from the resolution equation for equal plate numbers, R_s = sqrt(N)/2 (V_2-V_1)/(V_2+V_1)
// (ettre1993, with base widths 4 V / sqrt(N)), worked by hand for V of 3.786 and 5.5 hold-up
// volumes: a small load on a large column, of which little lies outside the bed.
TEST(PlanColumn, ResolutionFollowsFromPlatesAndLoad) {
    const auto resolution = [](const ColumnSettings &settings) {
        return plan_column({compound("a", 0.35), compound("b", 0.25)}, settings)
            .neighbours[0]
            .resolution.value();
    };
    ColumnSettings settings;
    settings.diameter_mm = 100.0;
    settings.load_mg = 1.0;
    EXPECT_NEAR(resolution(settings), 1.131, 0.02);
    settings.plate_number = 600.0;
    EXPECT_NEAR(resolution(settings), 2.261, 0.05);
    settings.load_ml = 2000.0;
    EXPECT_LT(resolution(settings), 1.5);
    settings.load_ml = 0.0;
    settings.load_mg = 50000.0; // 84 mg a gram of silica
    EXPECT_LT(resolution(settings), 1.3);
    EXPECT_GT(resolution({}), 0.5); // in column volumes, of a column that nobody knows
}

TEST(PlanColumn, TheMassOfACartridgeGivesItsVolumesAndPlates) {
    ColumnSettings settings;
    settings.silica_g = 4.0;
    const ColumnPlan plan = plan_column({compound("a", 0.3)}, settings);
    EXPECT_NEAR(plan.hold_up_ml.value(), 6.4, 1e-9);
    EXPECT_NEAR(plan.column->hold_up_ml(), 14.4, 1e-9);
    EXPECT_FALSE(plan.bed_mm.has_value());
    EXPECT_NEAR(plan.plate_number, 63.0, 1.0); // mm of a bed of 8 mL that is 5 diameters high
}

TEST(PlanColumn, RunsOfTheOwnColumnShiftAndNarrowTheBand) {
    ColumnSettings settings;
    settings.own = OwnColumn{"small", {}, {}};
    settings.own->stated.silica_g = 4.0;
    const auto band = [&] { return plan_column({compound("a", 0.3)}, settings).bands[0]; };
    const ExpectedBand blind = band().expected.value();
    SeenBand seen{"r1", "other", 0.4, 70.0, std::nullopt, 90.0, std::nullopt, 0.0};
    settings.own->seen.push_back(seen);
    EXPECT_FALSE(band().known.has_value());
    EXPECT_GT(band().expected->middle_ml(), blind.middle_ml());
    seen.compound = "A";
    seen.rf = 0.31;
    settings.own->seen.push_back(seen);
    EXPECT_NEAR(band().expected->middle_ml(), 80.0, 2.0);
    EXPECT_LT(band().expected->middle.factor(), blind.middle.factor() / 1.3);
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

TEST(PlanColumn, TheLoadIsUnknownWhereAnAmountIsMissing) {
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
    settings.load_mg = 0.1;
    EXPECT_EQ(warnings_of(plan_column(pair, settings)), Warnings{});
}

TEST(PlanColumn, WarnsOfATargetInTheForerun) {
    ColumnSettings settings;
    settings.hold_up_ml = 50.0;
    settings.fraction_ml = 10.0;
    const std::vector<PlateCompound> target{compound("a", 0.25, Role::target)};
    const double start = plan_column(target, settings).bands[0].expected->whole.low_ml;
    settings.discarded_ml = start - 1.0;
    EXPECT_EQ(warnings_of(plan_column(target, settings)), Warnings{});
    settings.discarded_ml = start + 1.0;
    EXPECT_EQ(warnings_of(plan_column(target, settings)), Warnings{PlanWarning::in_discarded});
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

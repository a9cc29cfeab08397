// Compounds and columns are invented; expected values follow from the lines by hand.
#include "resolve/choice.h"

#include "quantities/peak_shape.h"
#include "shared/error.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::resolve {
namespace {

MeasuredCompound on_line(const std::string &name, double log_k_weak, double slope,
                         const std::vector<double> &fractions = {0.2, 0.6}) {
    MeasuredCompound compound{name, {}, {}};
    for (const double fraction : fractions) {
        compound.points.push_back({fraction, std::pow(10.0, log_k_weak - slope * fraction)});
    }
    return compound;
}

Question question_of(std::vector<MeasuredCompound> compounds) {
    Question question;
    question.compounds = std::move(compounds);
    question.plate_number = 10000.0;
    return question;
}

// Lines 1.0 - 2 phi and 1.2 - 3 phi meet at 0.2, 1.5 - 4 phi meets them at 0.25 and 0.3.
TEST(Crossings, AreWhereLinesMeet) {
    const Choice choice = choose(question_of(
        {on_line("flat", 1.0, 2.0), on_line("mid", 1.2, 3.0), on_line("steep", 1.5, 4.0)}));
    ASSERT_EQ(choice.crossings.size(), 3U);
    EXPECT_NEAR(choice.crossings[0].fraction, 0.20, 1e-9);
    EXPECT_NEAR(choice.crossings[1].fraction, 0.25, 1e-9);
    EXPECT_NEAR(choice.crossings[2].fraction, 0.30, 1e-9);
    EXPECT_EQ(choice.crossings[1].compounds, (Pair{0, 2})); // below it the flat one leaves first
    EXPECT_NEAR(point_at(choice.lines, 0.25, 10000.0, {}).resolution, 0.0, 1e-6);
}

TEST(Curve, CoversTheMeasuredFractionsAndTheMargin) {
    const Choice choice = choose(question_of({on_line("a", 1.5, 3.0), on_line("b", 1.8, 3.0)}));
    EXPECT_NEAR(choice.range.low, 0.16, 1e-12);
    EXPECT_NEAR(choice.range.high, 0.64, 1e-12);
    EXPECT_EQ(choice.curve.size(), 481U);
    EXPECT_NEAR(choice.curve[40].fraction, 0.2, 1e-12);
    EXPECT_NEAR(with_margin({0.0, 0.9}).high, 0.95, 1e-12); // never more than 0.05
    EXPECT_EQ(with_margin({0.0, 0.9}).low, 0.0);
}

TEST(Choice, IsTheHighestResolutionThatKeepsRetentionInTheWindow) {
    Question question = question_of({on_line("a", 1.5, 3.0), on_line("b", 1.8, 3.0)});
    const Choice choice = choose(question);
    // Parallel lines are resolved the better the more they are held: b has k 10 at 0.8/3 = 0.2667.
    EXPECT_NEAR(choice.curve[choice.best].fraction, 0.267, 1e-9);
    EXPECT_EQ(choice.curve[choice.best].outside_window, 0U);
    ASSERT_TRUE(choice.fastest);
    EXPECT_NEAR(choice.curve[*choice.fastest].fraction, 0.5, 1e-9); // a has k 1
    ASSERT_TRUE(choice.unlimited);
    EXPECT_NEAR(choice.curve[*choice.unlimited].fraction, 0.16, 1e-9);
    const CurvePoint &best = choice.curve[choice.best];
    EXPECT_NEAR(best.resolution,
                quantities::resolution_from_plate_number(best.k[0], best.k[1], 10000.0), 1e-12);
    EXPECT_LT(choice.off_best, best.resolution);
    EXPECT_TRUE(is_answered(question, choice));
    // With ten plates nothing is resolved.
    question.plate_number = 10.0;
    EXPECT_FALSE(choose(question).fastest);
    EXPECT_FALSE(is_answered(question, choose(question)));
}

// k of a and c differ a hundredfold, so that no window of ten holds both.
TEST(Choice, ComesAsCloseToTheWindowAsItCan) {
    const Question question = question_of({on_line("a", 1.0, 3.0), on_line("c", 3.0, 3.0)});
    const Choice choice = choose(question);
    EXPECT_GT(choice.curve[choice.best].outside_window, 0U);
    EXPECT_FALSE(choice.fastest);
    for (const CurvePoint &point : choice.curve) {
        EXPECT_GE(point.window_excess, choice.curve[choice.best].window_excess - 1e-12);
    }
    EXPECT_FALSE(is_answered(question, choice));
}

TEST(WantedRetention, IsNotGivenFarOutsideTheMeasuredFractions) {
    Question question = question_of({on_line("a", 1.5, 3.0), on_line("b", 1.8, 3.0)});
    question.wanted = {"B", 6.0};
    EXPECT_NEAR(choose(question).wanted->fraction.value(), (1.8 - std::log10(6.0)) / 3.0, 1e-9);
    EXPECT_FALSE(choose(question).wanted->interval);
    question.wanted->k = 0.5; // at 0.70
    EXPECT_FALSE(choose(question).wanted->fraction);
    EXPECT_FALSE(is_answered(question, choose(question)));
    question.extrapolate = true;
    EXPECT_NEAR(choose(question).wanted->fraction.value(), (1.8 - std::log10(0.5)) / 3.0, 1e-9);
    EXPECT_TRUE(choose(question).wanted->is_outside_measured);
    question.wanted->compound = "nobody";
    EXPECT_THROW((void)choose(question), InputError);
}

TEST(Gradient, GivesNoTimeForACompoundThatLeavesWhereItWasNotMeasured) {
    Question question = question_of({on_line("a", 1.5, 3.0), on_line("late", 3.8, 3.0)});
    question.gradient = quantities::LinearGradient{0.05, 0.95, 20.0, 1.0, 1.5};
    const Choice choice = choose(question);
    ASSERT_EQ(choice.gradient.size(), 2U);
    EXPECT_TRUE(choice.gradient[0].retention);
    EXPECT_FALSE(choice.gradient[1].retention);
    EXPECT_FALSE(is_answered(question, choice));
    question.extrapolate = true;
    EXPECT_TRUE(choose(question).gradient[1].retention);
}

TEST(Choice, RefusesCompoundsThatShareNoFraction) {
    EXPECT_THROW((void)choose(question_of(
                     {on_line("a", 1.5, 3.0, {0.1, 0.2}), on_line("b", 1.8, 3.0, {0.5, 0.6})})),
                 InputError);
}

TEST(Warnings, SayWhereStructureContradictsTheOrder) {
    Question question = question_of({on_line("polar", 1.8, 3.0), on_line("greasy", 1.5, 3.0)});
    question.compounds[0].log_p = 0.4;
    question.compounds[1].log_p = 2.5;
    EXPECT_EQ(choose(question).warnings.size(), 1U);
    question.compounds[1].log_p = 1.5; // not clear
    EXPECT_TRUE(choose(question).warnings.empty());
    question.compounds[1].log_p = 2.5;
    question.phase = quantities::LiquidPhase::normal; // rightly so; but the law is another
    ASSERT_EQ(choose(question).warnings.size(), 1U);
    EXPECT_NE(choose(question).warnings[0].find("logarithm of the fraction"), std::string::npos);
    question.phase = quantities::LiquidPhase::unknown;
    EXPECT_TRUE(choose(question).warnings.empty());
}

TEST(Warnings, SayWhereALineCannotBeTrusted) {
    const Choice choice = choose(question_of({on_line("rising", 0.1, -1.0, {0.4, 0.43})}));
    ASSERT_EQ(choice.warnings.size(), 1U);
    EXPECT_NE(choice.warnings[0].find("held longer with more modifier"), std::string::npos);
    EXPECT_NE(choice.warnings[0].find("only 0.03 apart"), std::string::npos);
}

} // namespace
} // namespace cospot::resolve

#include "quantities/retention_index.h"

#include "quantities/retention_factor.h"
#include "shared/error.h"

#include <gtest/gtest.h>

#include <cmath>

namespace cospot::quantities {
namespace {

constexpr bool kExtrapolate = true;
constexpr bool kInsideOnly = false;

/// Isothermal, invented: hold-up 1.0 min, adjusted times doubling from member to member.
Ladder doubling_ladder() {
    return {IndexScale::n_alkane, {{8, 2.0}, {9, 3.0}, {10, 5.0}, {11, 9.0}}};
}

// G1: public teaching text on chromatography formulas (read).
TEST(KovatsIndex, MatchesTeachingText) {
    EXPECT_NEAR(kovats_index(10.0, 8.0, 12.0, 8, 9), 855.0, 0.1);
}

// G2: D. Harvey, Analytical Chemistry 2.1, isobutane (from memory).
TEST(KovatsIndex, MatchesTextbookIsobutane) {
    EXPECT_NEAR(kovats_index(5.71, 2.23, 6.67, 3, 4), 385.8, 0.5);
}

// G3, G4: D.C. Harris, Quantitative Chemical Analysis (from memory).
TEST(KovatsIndex, MatchesTextbookWithMethaneAsHoldUp) {
    const auto index = [](double hold_up, double octane, double unknown, double nonane) {
        const Ladder ladder{IndexScale::n_alkane, {{8, octane}, {9, nonane}}};
        return index_on_ladder(ladder, unknown, IndexLaw::logarithmic, hold_up, kInsideOnly).index;
    };
    EXPECT_NEAR(index(0.5, 14.3, 15.7, 18.5).value(), 836.4, 0.5);
    EXPECT_NEAR(index(1.0, 12.0, 13.0, 15.0).value(), 836.1, 0.5);
}

// G6: a public question-and-answer page (input read). It prints 2358, which is wrong: the peak lies
// between octane and nonane.
TEST(KovatsIndex, RejectsAWrongPublishedAnswer) {
    const double index = kovats_index(14.4 - 1.6, 13.0 - 1.6, 19.2 - 1.6, 8, 9);
    EXPECT_NEAR(index, 826.7, 0.1);
    EXPECT_GT(std::abs(index - 2358.0), 1000.0);
    EXPECT_NEAR(linear_index(14.4, 13.0, 19.2, 8, 9), 822.6, 0.1);
}

// G5: van den Dool and Kratz 1963; times read at a public teaching page, number computed.
TEST(LinearIndex, MatchesEvenCarbonLadder) {
    EXPECT_NEAR(linear_index(35.86, 30.05, 42.96, 12, 14), 1290.0, 0.1);
    const Ladder even{IndexScale::n_alkane, {{12, 30.05}, {14, 42.96}}};
    const IndexedTime peak = index_on_ladder(even, 35.86, IndexLaw::linear, 0.0, kInsideOnly);
    EXPECT_NEAR(peak.index.value(), 1290.0, 0.1);
    EXPECT_FALSE(peak.in_gap);
}

// G10: toluene on 5 % phenyl, isothermal 784.5 against about 768 programmed (from memory): the law
// alone makes a difference too, so the two are never exchanged.
TEST(KovatsIndex, DiffersFromTheLinearIndexExceptAtMembers) {
    EXPECT_GT(kovats_index(10.0, 8.0, 12.0, 8, 9) - linear_index(10.0, 8.0, 12.0, 8, 9), 3.0);
    EXPECT_EQ(kovats_index(8.0, 8.0, 12.0, 8, 9), linear_index(8.0, 8.0, 12.0, 8, 9));
    EXPECT_EQ(kovats_index(12.0, 8.0, 12.0, 8, 9), linear_index(12.0, 8.0, 12.0, 8, 9));
}

// H16: R.M. Smith 1982, J. Chromatogr. 236, 313 (scale from memory; numbers invented).
TEST(KovatsIndex, WorksOnTheAlkylArylKetoneScale) {
    EXPECT_NEAR(kovats_index(4.2, 3.1, 5.9, 8, 9), 847.2, 0.1);
}

TEST(KovatsIndex, IsTheSameFromRetentionFactors) {
    const double hold_up = 1.3;
    const auto k = [&](double time) { return retention_factor(time, hold_up); };
    const auto adjusted = [&](double time) { return adjusted_retention_time(time, hold_up); };
    EXPECT_NEAR(kovats_index(k(5.2), k(4.1), k(6.9), 9, 11),
                kovats_index(adjusted(5.2), adjusted(4.1), adjusted(6.9), 9, 11), 1e-9);
}

TEST(RetentionIndex, RefusesPeaksAndMembersOutsideTheDefinition) {
    EXPECT_THROW((void)kovats_index(7.9, 8.0, 12.0, 8, 9), InputError);
    EXPECT_THROW((void)kovats_index(12.1, 8.0, 12.0, 8, 9), InputError);
    EXPECT_THROW((void)kovats_index(8.0, 0.0, 12.0, 8, 9), InputError);
    EXPECT_THROW((void)kovats_index(8.0, 8.0, 8.0, 8, 9), InputError);
    EXPECT_THROW((void)kovats_index(10.0, 8.0, 12.0, 9, 9), InputError);
    EXPECT_THROW((void)kovats_index(std::nan(""), 8.0, 12.0, 8, 9), InputError);
    EXPECT_THROW((void)linear_index(12.1, 8.0, 12.0, 8, 9), InputError);
    EXPECT_THROW((void)linear_index(10.0, 12.0, 8.0, 8, 9), InputError);
    EXPECT_THROW((void)linear_index(10.0, 8.0, 12.0, 9, 8), InputError);
}

TEST(IndexOnLadder, GivesMembersExactlyAHundredTimesTheirCarbonNumber) {
    const Ladder ladder{IndexScale::n_alkane,
                        {{7, 2.113}, {8, 2.971}, {9, 4.407}, {10, 6.839}, {12, 17.93}}};
    for (const IndexLaw law : {IndexLaw::logarithmic, IndexLaw::linear}) {
        for (const LadderPoint &point : ladder.points) {
            const IndexedTime member =
                index_on_ladder(ladder, point.retention_time_min, law, 0.917, kInsideOnly);
            EXPECT_EQ(member.position, LadderPosition::inside);
            EXPECT_EQ(member.index, 100.0 * point.carbon);
        }
    }
}

TEST(IndexOnLadder, KeepsTheOrderOfElution) {
    for (const IndexLaw law : {IndexLaw::logarithmic, IndexLaw::linear}) {
        double before = 0.0;
        for (double time = 1.05; time < 14.0; time += 0.05) {
            const double index =
                index_on_ladder(doubling_ladder(), time, law, 1.0, kExtrapolate).index.value();
            if (time > 1.05) {
                EXPECT_GT(index, before) << time;
            }
            before = index;
        }
    }
}

TEST(IndexOnLadder, TakesTheBracketAroundThePeak) {
    const IndexedTime peak = index_on_ladder(doubling_ladder(), 1.0 + 4.0 * std::sqrt(2.0),
                                             IndexLaw::logarithmic, 1.0, kInsideOnly);
    EXPECT_NEAR(peak.index.value(), 1050.0, 1e-9);
    EXPECT_NEAR(
        index_on_ladder(doubling_ladder(), 4.0, IndexLaw::linear, 0.0, kInsideOnly).index.value(),
        950.0, 1e-9);
}

TEST(IndexOnLadder, SlopeEqualsTheNumericalDerivative) {
    constexpr double kStep = 1e-6;
    for (const IndexLaw law : {IndexLaw::logarithmic, IndexLaw::linear}) {
        for (const double time : {1.5, 2.6, 3.7, 7.0, 10.0}) {
            const auto at = [&](double t) {
                return index_on_ladder(doubling_ladder(), t, law, 1.0, kExtrapolate);
            };
            const double numerical =
                (at(time + kStep).index.value() - at(time - kStep).index.value()) / (2.0 * kStep);
            EXPECT_NEAR(at(time).index_per_min, numerical, 1e-4 * numerical) << time;
        }
    }
}

TEST(IndexOnLadder, GivesNoIndexOutsideUnlessAsked) {
    for (const IndexLaw law : {IndexLaw::logarithmic, IndexLaw::linear}) {
        const IndexedTime early = index_on_ladder(doubling_ladder(), 1.5, law, 1.0, kInsideOnly);
        EXPECT_EQ(early.position, LadderPosition::before_first);
        EXPECT_FALSE(early.index.has_value());
        EXPECT_EQ(early.index_per_min, 0.0);
        const IndexedTime late = index_on_ladder(doubling_ladder(), 9.1, law, 1.0, kInsideOnly);
        EXPECT_EQ(late.position, LadderPosition::after_last);
        EXPECT_FALSE(late.index.has_value());
    }
}

TEST(IndexOnLadder, MarksWhatItExtrapolates) {
    const auto at = [](double time) {
        return index_on_ladder(doubling_ladder(), time, IndexLaw::logarithmic, 1.0, kExtrapolate);
    };
    EXPECT_TRUE(at(1.5).extrapolated);
    EXPECT_EQ(at(1.5).position, LadderPosition::before_first);
    EXPECT_NEAR(at(1.5).index.value(), 700.0, 1e-9); // half the adjusted time of C8
    EXPECT_TRUE(at(17.0).extrapolated);
    EXPECT_NEAR(at(17.0).index.value(), 1200.0, 1e-9); // twice the adjusted time of C11
    EXPECT_FALSE(at(4.0).extrapolated);
}

TEST(IndexOnLadder, NeverGivesAnIndexAtOrBeforeTheHoldUpTime) {
    for (const IndexLaw law : {IndexLaw::logarithmic, IndexLaw::linear}) {
        for (const double time : {0.5, 1.0}) {
            const IndexedTime peak =
                index_on_ladder(doubling_ladder(), time, law, 1.0, kExtrapolate);
            EXPECT_EQ(peak.position, LadderPosition::before_hold_up);
            EXPECT_FALSE(peak.index.has_value());
            EXPECT_FALSE(peak.extrapolated);
        }
    }
}

TEST(IndexOnLadder, TakesMethaneAsMemberAndHoldUpInAProgrammedRun) {
    const Ladder ladder{IndexScale::n_alkane, {{1, 1.0}, {2, 1.6}, {3, 2.8}}};
    EXPECT_NEAR(index_on_ladder(ladder, 2.2, IndexLaw::linear, 1.0, kInsideOnly).index.value(),
                250.0, 1e-9);
    EXPECT_EQ(index_on_ladder(ladder, 1.0, IndexLaw::linear, 1.0, kInsideOnly).position,
              LadderPosition::before_hold_up);
}

TEST(IndexOnLadder, MarksPeaksInAGap) {
    const Ladder ladder{IndexScale::n_alkane, {{8, 2.0}, {9, 3.0}, {11, 9.0}}};
    const auto at = [&](double time) {
        return index_on_ladder(ladder, time, IndexLaw::logarithmic, 1.0, kExtrapolate);
    };
    EXPECT_FALSE(at(2.5).in_gap);
    EXPECT_TRUE(at(5.0).in_gap);
    EXPECT_NEAR(at(5.0).index.value(), 1000.0, 1e-9);
    EXPECT_TRUE(at(10.0).in_gap);
    EXPECT_FALSE(at(1.5).in_gap);
}

/// A programmed run that begins with a hold, invented: times in min of the members 7 to 24.
Ladder programmed_ladder() {
    Ladder ladder{IndexScale::n_alkane, {}};
    for (int carbon = 7; carbon <= 24; ++carbon) {
        const double n = carbon - 7.0;
        ladder.points.push_back({static_cast<double>(carbon),
                                 3.0 + 2.4 * n - 3.0 * (1.0 - std::exp(-0.35 * n)) - 0.02 * n * n});
    }
    return ladder;
}

TEST(IndexOnLadder, StatesWhatInterpolatingOverMissingMembersCosts) {
    const Ladder full = programmed_ladder();
    int within = 0;
    int all = 0;
    double largest = 0.0;
    for (std::size_t first = 1; first + 4 < full.points.size(); ++first) {
        for (const std::size_t missing : {1U, 2U, 3U}) {
            Ladder gappy = full;
            const auto from = gappy.points.begin() + static_cast<std::ptrdiff_t>(first);
            gappy.points.erase(from, from + static_cast<std::ptrdiff_t>(missing));
            const double low = full.points[first - 1].retention_time_min;
            const double high = full.points[first + missing].retention_time_min;
            for (const double share : {0.15, 0.3, 0.5, 0.7, 0.85}) {
                const double time = low + share * (high - low);
                const auto at = [&](const Ladder &ladder) {
                    return index_on_ladder(ladder, time, IndexLaw::linear, 0.0, kInsideOnly);
                };
                EXPECT_EQ(at(full).interpolation_uncertainty, 0.0);
                const double stated = at(gappy).interpolation_uncertainty;
                const double error = std::abs(at(gappy).index.value() - at(full).index.value());
                EXPECT_GT(stated, 0.0);
                EXPECT_LT(error, 3.0 * stated + 0.5) << first << ' ' << missing << ' ' << share;
                EXPECT_LT(stated, 5.0 * error + 2.0) << first << ' ' << missing << ' ' << share;
                within += error <= 2.0 * stated ? 1 : 0;
                ++all;
                largest = std::max(largest, error);
            }
        }
    }
    EXPECT_GE(within, 0.95 * all);
    EXPECT_GT(largest, 15.0); // it matters
}

TEST(IndexOnLadder, SaysHowErrorsOfTheLaddersTimesEnter) {
    const double step = 1e-6;
    for (const IndexLaw law : {IndexLaw::logarithmic, IndexLaw::linear}) {
        const Ladder ladder = doubling_ladder();
        const auto index = [&](const Ladder &of, double hold_up) {
            return index_on_ladder(of, 3.4, law, hold_up, kInsideOnly).index.value();
        };
        double squares = 0.0;
        for (const std::size_t member : {1U, 2U}) {
            Ladder moved = ladder;
            moved.points[member].retention_time_min += step;
            squares += std::pow((index(moved, 1.0) - index(ladder, 1.0)) / step, 2);
        }
        squares += std::pow((index(ladder, 1.0 + step) - index(ladder, 1.0)) / step, 2);
        EXPECT_NEAR(index_on_ladder(ladder, 3.4, law, 1.0, kInsideOnly).ladder_per_min,
                    std::sqrt(squares), 1e-3);
    }
}

TEST(IndexOnLadder, RefusesImpossibleTimesAndLadders) {
    const auto at = [](const Ladder &ladder, double time, IndexLaw law, double hold_up) {
        return index_on_ladder(ladder, time, law, hold_up, kInsideOnly);
    };
    const IndexLaw log = IndexLaw::logarithmic;
    EXPECT_THROW((void)at(doubling_ladder(), 0.0, log, 1.0), InputError);
    EXPECT_THROW((void)at(doubling_ladder(), std::nan(""), log, 1.0), InputError);
    EXPECT_THROW((void)at(doubling_ladder(), 4.0, log, -1.0), InputError);
    EXPECT_THROW((void)at(doubling_ladder(), 4.0, log, 2.0), InputError);
    EXPECT_THROW((void)at(doubling_ladder(), 4.0, IndexLaw::linear, 2.1), InputError);
    EXPECT_THROW((void)at(doubling_ladder(), 4.0, IndexLaw::linear, std::nan("")), InputError);
    EXPECT_THROW((void)at({IndexScale::n_alkane, {{8, 2.0}}}, 2.0, log, 1.0), InputError);
    EXPECT_THROW((void)at({IndexScale::n_alkane, {{8, 3.0}, {9, 2.0}}}, 2.5, log, 1.0), InputError);
}

} // namespace
} // namespace cospot::quantities

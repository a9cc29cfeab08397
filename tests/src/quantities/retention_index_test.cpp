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

/// The index between two members; of adjusted times or retention factors with the logarithmic law.
double index_between(const LadderPoint &lower, const LadderPoint &upper, double x, IndexLaw law) {
    const Ladder ladder{IndexScale::n_alkane, {lower, upper}};
    return index_on_ladder(ladder, x, law, 0.0, kInsideOnly).index.value();
}

// kovats1958, formula read; number of teachingformulas, read.
TEST(LogarithmicLaw, MatchesTeachingText) {
    EXPECT_NEAR(index_between({8, 8.0}, {9, 12.0}, 10.0, IndexLaw::logarithmic), 855.0, 0.1);
}

// harvey2016, recomputed: isobutane, given as 386.
TEST(LogarithmicLaw, MatchesTextbookIsobutane) {
    EXPECT_NEAR(index_between({3, 2.23}, {4, 6.67}, 5.71, IndexLaw::logarithmic), 385.8, 0.5);
}

// harris, recomputed: methane for the hold-up time, both given as 836.
TEST(LogarithmicLaw, MatchesTextbookWithMethaneAsHoldUp) {
    const auto index = [](double hold_up, double octane, double unknown, double nonane) {
        const Ladder ladder{IndexScale::n_alkane, {{8, octane}, {9, nonane}}};
        return index_on_ladder(ladder, unknown, IndexLaw::logarithmic, hold_up, kInsideOnly).index;
    };
    EXPECT_NEAR(index(0.5, 14.3, 15.7, 18.5).value(), 836.4, 0.5);
    EXPECT_NEAR(index(1.0, 12.0, 13.0, 15.0).value(), 836.1, 0.5);
}

// answerpage: times read. It prints 2358, which is wrong: the peak lies between octane and nonane.
TEST(LogarithmicLaw, AWrongPublishedIndexIsNotReproduced) {
    const Ladder ladder{IndexScale::n_alkane, {{8, 13.0}, {9, 19.2}}};
    const auto index = [&](IndexLaw law) {
        return index_on_ladder(ladder, 14.4, law, 1.6, kInsideOnly).index.value();
    };
    EXPECT_NEAR(index(IndexLaw::logarithmic), 826.7, 0.1);
    EXPECT_NEAR(index(IndexLaw::linear), 822.6, 0.1);
}

// vandendool1963, formula read; times of teachinggc, index recomputed.
TEST(LinearLaw, MatchesEvenCarbonLadder) {
    const Ladder even{IndexScale::n_alkane, {{12, 30.05}, {14, 42.96}}};
    const IndexedTime peak = index_on_ladder(even, 35.86, IndexLaw::linear, 0.0, kInsideOnly);
    EXPECT_NEAR(peak.index.value(), 1290.0, 0.1);
    EXPECT_FALSE(peak.in_gap);
}

// The law alone makes a difference, so one is never taken for the other (ettre1993, R05360, read).
TEST(LogarithmicLaw, DiffersFromTheLinearOneExceptAtMembers) {
    const auto difference = [](double x) {
        return index_between({8, 8.0}, {9, 12.0}, x, IndexLaw::logarithmic) -
               index_between({8, 8.0}, {9, 12.0}, x, IndexLaw::linear);
    };
    EXPECT_GT(difference(10.0), 3.0);
    EXPECT_EQ(difference(8.0), 0.0);
    EXPECT_EQ(difference(12.0), 0.0);
}

// smith1982, scale from memory; numbers invented.
TEST(LogarithmicLaw, WorksOnTheAlkylArylKetoneScale) {
    const Ladder ladder{IndexScale::alkyl_aryl_ketone, {{8, 3.1}, {9, 5.9}}};
    EXPECT_NEAR(index_on_ladder(ladder, 4.2, IndexLaw::logarithmic, 0.0, kInsideOnly).index.value(),
                847.2, 0.1);
}

TEST(LogarithmicLaw, IsTheSameFromRetentionFactors) {
    const double hold_up = 1.3;
    const auto k = [&](double time) { return retention_factor(time, hold_up); };
    const Ladder times{IndexScale::n_alkane, {{9, 4.1}, {11, 6.9}}};
    EXPECT_NEAR(
        index_between({9, k(4.1)}, {11, k(6.9)}, k(5.2), IndexLaw::logarithmic),
        index_on_ladder(times, 5.2, IndexLaw::logarithmic, hold_up, kInsideOnly).index.value(),
        1e-9);
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

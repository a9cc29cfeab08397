// How a blank is laid over the run of a sample. A run at a flow lower by 3 % has all times longer
// by 1/0.97 (common practice, no source).
#include "purity/blank_scale.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace cospot::purity {
namespace {

constexpr double kSlower = 1.0 / 0.97;

/// Times rise as homologues' do under constant conditions: adjusted times in geometric steps.
double homologue_time(double hold_up_min, double carbon) {
    return hold_up_min + 0.5 * std::exp(0.4 * (carbon - 8.0));
}

RunScale with_ladder(double slower, quantities::IndexLaw law) {
    RunScale run;
    run.law = law;
    run.hold_up_min = slower * 1.0;
    run.ladder = quantities::Ladder{};
    for (double carbon = 8; carbon <= 14; ++carbon) {
        run.ladder->points.push_back({carbon, slower * homologue_time(1.0, carbon)});
    }
    return run;
}

TEST(BlankScale, LaddersGiveTheTimeOfTheSameIndex) {
    for (const auto law : {quantities::IndexLaw::logarithmic, quantities::IndexLaw::linear}) {
        const BlankScale scale =
            blank_scale(with_ladder(1.0, law), with_ladder(kSlower, law), {}, {});
        for (const double carbon : {8.0, 8.3, 10.5, 13.9}) {
            const double own = homologue_time(1.0, carbon);
            EXPECT_NEAR(scale.on_sample(kSlower * own), own, 1e-3) << carbon;
        }
        // Outside the ladder the nearest end tells.
        EXPECT_NEAR(scale.on_sample(kSlower * 1.2), 1.2, 1e-9);
        EXPECT_NEAR(scale.on_sample(kSlower * 20.0), 20.0, 1e-9);
        EXPECT_NE(scale.note.find("retention index"), std::string::npos);
    }
}

TEST(BlankScale, AReferenceInBothRunsCounts) {
    RunScale sample;
    RunScale blank;
    sample.reference_min = 10.0;
    blank.reference_min = 10.0 * kSlower;
    EXPECT_NEAR(blank_scale(sample, blank, {}, {}).on_sample(4.0 * kSlower), 4.0, 1e-9);
    // With hold-up times r is equal: here the blank's system has a longer dead volume.
    sample.hold_up_min = 1.0;
    blank.hold_up_min = 1.5;
    const BlankScale adjusted = blank_scale(sample, blank, {}, {});
    const double r = (4.0 - 1.0) / (10.0 - 1.0);
    EXPECT_NEAR(adjusted.on_sample(1.5 + r * (*blank.reference_min - 1.5)), 4.0, 1e-9);
    EXPECT_NE(adjusted.note.find("adjusted relative retention"), std::string::npos);
}

TEST(BlankScale, HoldUpTimesGiveTheTimeOfTheSameRetentionFactor) {
    RunScale sample;
    RunScale blank;
    sample.hold_up_min = 1.0;
    blank.hold_up_min = kSlower;
    EXPECT_NEAR(blank_scale(sample, blank, {}, {}).on_sample(4.0 * kSlower), 4.0, 1e-9);
    blank.hold_up_min.reset(); // the sample's does not hold for the blank
    EXPECT_EQ(blank_scale(sample, blank, {}, {}).on_sample(4.0), 4.0);
}

TEST(BlankScale, CommonPeaksCountWhereThreeOrMoreAgree) {
    const std::vector<double> sample{2.1, 3.4, 4.44, 6.0, 7.9, 11.3};
    struct Case {
        std::vector<double> common; ///< of the sample
        std::vector<double> own;    ///< of the blank only
        double slower;
        bool is_scaled;
    };
    const std::vector<Case> cases{{{2.1, 4.44, 11.3}, {}, kSlower, true},
                                  {{2.1, 4.44, 6.0, 11.3}, {1.3}, kSlower, true},
                                  {{2.1, 4.44, 6.0, 11.3}, {1.3}, 0.98, true},
                                  {{2.1, 4.44, 6.0, 11.3}, {1.3}, 1.0, true},
                                  {{2.1, 11.3}, {}, kSlower, false}, // two are chance
                                  {{2.1, 4.44, 6.0}, {1.0, 1.2, 14, 15}, kSlower, false}, // few
                                  {{2.1, 4.44, 11.3}, {}, 1.1, false}};                   // too far
    for (const Case &one : cases) {
        std::vector<double> blank = one.own;
        for (const double time : one.common) {
            blank.push_back(time * one.slower);
        }
        const BlankScale scale = blank_scale({}, {}, sample, blank);
        const double expected = one.is_scaled ? 6.0 / one.slower : 6.0;
        EXPECT_NEAR(scale.on_sample(6.0), expected, 0.004) << one.slower;
        EXPECT_EQ(scale.note.find("compared by retention time;") == std::string::npos,
                  one.is_scaled)
            << scale.note;
    }
    EXPECT_EQ(blank_scale({}, {}, {}, sample).on_sample(3.0), 3.0);
}

} // namespace
} // namespace cospot::purity

#include "integration/ladder_trace.h"

#include "program/trace_text.h"
#include "shared/error.h"

#include <gtest/gtest.h>

#include <cmath>
#include <sstream>

namespace cospot {
namespace {

LadderOfTrace ladder_in(const std::vector<MadePeak> &peaks, double last_min,
                        std::optional<int> first = 8) {
    std::istringstream in(trace_text(peaks, last_min));
    return ladder_of_trace(integrate(in, "ladder.txt", {}), quantities::IndexScale::n_alkane,
                           first);
}

TEST(LadderOfTrace, CountsEvenlySpacedPeaksFromTheFirst) {
    std::vector<MadePeak> peaks;
    for (int i = 0; i < 8; ++i) {
        peaks.push_back({3.0 + 1.5 * i, 6000});
    }
    const LadderOfTrace found = ladder_in(peaks, 15.0);
    ASSERT_EQ(found.ladder.points.size(), 8U);
    EXPECT_EQ(found.ladder.points.front().carbon, 8);
    EXPECT_EQ(found.ladder.points.back().carbon, 15);
    EXPECT_NEAR(found.ladder.points.back().retention_time_min, 13.5, 0.002);
    EXPECT_TRUE(found.assignment.starts_with("C8 at 3.000 min, C9 at 4.500 min"))
        << found.assignment;
}

TEST(LadderOfTrace, PassesOverSolventAndImpurities) {
    std::vector<MadePeak> peaks{{1.2, 400000}}; // solvent
    for (int i = 0; i < 6; ++i) {
        peaks.push_back({3.0 + 1.5 * i, 6000});
        peaks.push_back({3.7 + 1.5 * i, 150}); // impurities between them
    }
    const LadderOfTrace found = ladder_in(peaks, 12.0);
    ASSERT_EQ(found.ladder.points.size(), 6U) << found.assignment;
    EXPECT_NEAR(found.ladder.points.front().retention_time_min, 3.0, 0.002);
}

TEST(LadderOfTrace, TakesGapsThatGrowEvenly) {
    std::vector<MadePeak> peaks; // under constant conditions log t' is linear in carbon numbers
    for (int i = 0; i < 6; ++i) {
        peaks.push_back({1.0 + 0.5 * std::pow(1.8, i), 6000});
    }
    EXPECT_EQ(ladder_in(peaks, 12.0).ladder.points.size(), 6U);
}

TEST(LadderOfTrace, RefusesWhatIsNotEven) {
    EXPECT_THROW(
        (void)ladder_in({{2.0, 6000}, {3.0, 6000}, {6.0, 6000}, {6.5, 6000}, {9.0, 6000}}, 11.0),
        InputError);
    EXPECT_THROW((void)ladder_in({{2.0, 6000}, {3.0, 6000}, {4.0, 6000}}, 6.0, std::nullopt),
                 InputError);
}

} // namespace
} // namespace cospot

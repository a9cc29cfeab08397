// Windows of the curve: from minimum to minimum, each with its top.
#include "resolve/windows.h"

#include <gtest/gtest.h>

namespace cospot::resolve {
namespace {

std::vector<CurvePoint> curve_of(const std::vector<double> &resolutions) {
    std::vector<CurvePoint> curve;
    for (const double resolution : resolutions) {
        CurvePoint point;
        point.resolution = resolution;
        curve.push_back(point);
    }
    return curve;
}

TEST(Windows, ReachFromMinimumToMinimum) {
    const auto windows = windows_of(curve_of({1.0, 2.0, 1.0, 0.0, 3.0, 5.0, 4.0, 4.0, 4.5}));
    ASSERT_EQ(windows.size(), 3U);
    EXPECT_EQ(windows[0].first, 0U);
    EXPECT_EQ(windows[0].top, 1U);
    EXPECT_EQ(windows[0].last, 3U);
    EXPECT_EQ(windows[1].first, 3U);
    EXPECT_EQ(windows[1].top, 5U);
    EXPECT_EQ(windows[1].last, 7U);
    EXPECT_EQ(windows[2].top, 8U);
    EXPECT_EQ(windows[2].last, 8U);
}

TEST(Windows, AreOneOnACurveThatOnlyRises) {
    const auto windows = windows_of(curve_of({0.0, 1.0, 1.0, 2.0}));
    ASSERT_EQ(windows.size(), 1U);
    EXPECT_EQ(windows[0].top, 3U);
    EXPECT_TRUE(windows_of({}).empty());
}

TEST(Windows, PreferATopThatKeepsEveryK) {
    auto curve = curve_of({1.0, 2.0, 3.0});
    curve[2].outside_window = 1;
    EXPECT_EQ(windows_of(curve).front().top, 1U);
    curve[0].outside_window = curve[1].outside_window = 1;
    EXPECT_EQ(windows_of(curve).front().top, 2U);
}

} // namespace
} // namespace cospot::resolve

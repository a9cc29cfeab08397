#include "report/range_picture.h"

#include "report/svg.h"

#include <algorithm>

namespace cospot {

namespace {

constexpr double kWidth = 190.0;
constexpr double kHeight = 18.0;
constexpr double kMargin = 4.0;

} // namespace

std::string range_picture(double low, double expected, double high, double axis_low,
                          double axis_high, const std::string &words) {
    const auto x = [&](double value) {
        const double share = std::clamp((value - axis_low) / (axis_high - axis_low), 0.0, 1.0);
        return kMargin + (kWidth - 2 * kMargin) * share;
    };
    const double middle = kHeight / 2;
    return svg::begin(kWidth, kHeight, "range", words, words) +
           svg::line(kMargin, middle, kWidth - kMargin, middle, "axis") +
           svg::line(kMargin, middle - 4, kMargin, middle + 4, "axis") +
           svg::line(kWidth - kMargin, middle - 4, kWidth - kMargin, middle + 4, "axis") +
           svg::rectangle(x(low), middle - 4, std::max(1.0, x(high) - x(low)), 8, "interval") +
           svg::line(x(expected), 1, x(expected), kHeight - 1, "expected") + std::string(svg::kEnd);
}

} // namespace cospot

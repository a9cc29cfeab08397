#include "drawing/share_bar.h"

#include "drawing/svg.h"

#include <algorithm>

namespace cospot {

namespace {

constexpr double kShareBarWidth = 104.0;
constexpr double kShareBarHeight = 12.0;

} // namespace

std::string share_bar(double share, const std::string &words) {
    const double filled = (kShareBarWidth - 2.0) * std::clamp(share, 0.0, 1.0);
    return svg::begin(kShareBarWidth, kShareBarHeight, "filling", words, words) +
           svg::rectangle(1.0, 1.0, filled, kShareBarHeight - 2.0, "filled") +
           svg::rectangle(0.5, 0.5, kShareBarWidth - 1.0, kShareBarHeight - 1.0, "frame") +
           std::string(svg::kEnd);
}

} // namespace cospot

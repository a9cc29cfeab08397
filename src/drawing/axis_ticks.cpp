#include "drawing/axis_ticks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

constexpr double kRounding = 1e-9;

} // namespace

double round_step(double range, double about) {
    const double least = range / about;
    const double power = std::pow(10.0, std::floor(std::log10(least)));
    for (const double factor : {1.0, 2.0, 5.0}) {
        if (factor * power >= least * (1.0 - kRounding)) {
            return factor * power;
        }
    }
    return 10.0 * power;
}

std::vector<double> axis_ticks(double low, double high, double step) {
    std::vector<double> ticks;
    const double last = std::floor(high / step + kRounding);
    for (double count = std::ceil(low / step - kRounding); count <= last; ++count) {
        ticks.push_back(count * step);
    }
    return ticks;
}

std::string tick_text(double tick, double step) {
    const int digits = std::max(0, -static_cast<int>(std::floor(std::log10(step) + kRounding)));
    const std::string text = fmt::format("{:.{}f}", tick, digits);
    return text.find_first_of("123456789") == std::string::npos && text.starts_with('-')
               ? text.substr(1)
               : text;
}

} // namespace cospot

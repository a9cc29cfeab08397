#include "shared/value_with_spread.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

std::string shown_beside(Quantity quantity, double value, double spread) {
    if (quantity != Quantity::k || !(spread > 0.0)) {
        return shown(quantity, value);
    }
    constexpr int fewest = 2;
    constexpr int most = 6;
    const int two_digits = 1 - static_cast<int>(std::floor(std::log10(spread)));
    return fmt::format("{:.{}f}", value, std::clamp(two_digits, fewest, most));
}

std::string with_spread(Quantity quantity, double value, double spread) {
    const std::string text = shown_beside(quantity, value, spread);
    return spread > 0.0 ? text + " ± " + shown_beside(quantity, spread, spread) : text;
}

} // namespace cospot

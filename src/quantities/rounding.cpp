#include "quantities/rounding.h"

#include "shared/number.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot::purity {

std::optional<Decimal> decimal_from_text(std::string_view text) {
    const bool is_plain = !text.empty() && text.find_first_not_of("0123456789.") == text.npos;
    const auto value = is_plain ? number_from_text(text) : std::nullopt;
    if (!value) {
        return std::nullopt;
    }
    const std::size_t point = text.find('.');
    return Decimal{*value, point == text.npos ? 0 : static_cast<int>(text.size() - point) - 1};
}

double rounded_half_up(double value, int decimals) {
    // A half that binary numbers keep a little too small is still a half.
    constexpr double slack = 1e-9;
    constexpr double all_whole = 0x1p52; // from here on no number has a part below 1
    const double power = std::pow(10.0, decimals);
    return value * power < all_whole ? std::floor(value * power + 0.5 + slack) / power : value;
}

Decimal reported_percent(double percent, int threshold_decimals) {
    const int own = rounded_half_up(percent, 2) < 1.0 ? 2 : 1;
    const int decimals = std::min(own, threshold_decimals);
    return {rounded_half_up(percent, decimals), decimals};
}

std::string to_text(const Decimal &decimal) {
    return fmt::format("{:.{}f}", decimal.value, decimal.decimals);
}

bool exceeds(double value, const Decimal &limit) {
    constexpr double slack = 1e-9;
    return rounded_half_up(value, limit.decimals) > limit.value + slack;
}

} // namespace cospot::purity

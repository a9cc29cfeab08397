#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace cospot::purity {

/// A decimal number with the decimals that it was written with: limits are compared with results
/// rounded to the same decimals, so "0.10" is another limit than "0.1".
struct Decimal {
    double value = 0.0;
    int decimals = 0;
};

/// The number that the text spells, from 0 and without an exponent; empty for anything else.
[[nodiscard]] std::optional<Decimal> decimal_from_text(std::string_view text);

/// Rounded half up, as guidelines for purity round (0.55 to one decimal is 0.6).
[[nodiscard]] double rounded_half_up(double value, int decimals);

/// A result in per cent as it is reported: two decimals below 1.0 and one from there on (ICH
/// Q3A(R2), 2006, section 5), but never more decimals than the reporting threshold has.
[[nodiscard]] Decimal reported_percent(double percent, int threshold_decimals);

/// With all its decimals.
[[nodiscard]] std::string to_text(const Decimal &decimal);

/// Whether the value, rounded to the decimals of the limit, is above it ("exceeds" is strict).
[[nodiscard]] bool exceeds(double value, const Decimal &limit);

} // namespace cospot::purity

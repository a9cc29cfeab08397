#pragma once

#include "shared/error.h"

#include <optional>
#include <string>
#include <string_view>

namespace cospot {

/// The number that the whole text spells, with a decimal point whatever the locale; empty for
/// anything else (decimal comma, infinities, "nan", trailing text, out of double's range).
[[nodiscard]] std::optional<double> number_from_text(std::string_view text);

/// As `number_from_text`, but throws InputError at `where`; a decimal comma is named as such.
/// `expected` says what number belongs there, e.g. "a retention time in minutes".
[[nodiscard]] double parse_number(std::string_view text, const Where &where,
                                  const std::string &expected);

/// Shortest text that reads back as the same double.
[[nodiscard]] std::string exact_text(double value);

} // namespace cospot

#pragma once

#include <string>
#include <string_view>

namespace cospot {

/// A text field of fixed width as UTF-8: it ends at the first NUL, and blanks at its ends are taken
/// off. What is no UTF-8 is read as ISO 8859-1, as old programs wrote it (a micro sign, a degree).
[[nodiscard]] std::string stored_text(std::string_view bytes);

/// A time stamp YYYYMMDDhhmmss with or without an offset +hhmm (ASTM E1947) in ISO 8601,
/// 2026-01-31T09:30:00+01:00; any other text as it is.
[[nodiscard]] std::string iso_time_stamp(std::string_view stamp);

} // namespace cospot

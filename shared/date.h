#pragma once

#include "shared/error.h"

#include <optional>
#include <string>
#include <string_view>

namespace cospot {

/// Checks a calendar date in ISO 8601 form, YYYY-MM-DD, or YYYY-MM or YYYY where no more is known,
/// or as 1.3.2026, 1 Mar 2026, 1-Mar-2026 or 2026/3/1, and returns it in ISO 8601 form. A time of
/// day behind it is dropped. Throws InputError for anything else, e.g. 2023-02-30 or 3/4/2023.
[[nodiscard]] std::string parse_date(std::string_view text, const Where &where);

/// The same for the day of a measurement: not before 1900, as there was no chromatography, and not
/// after tomorrow, which is today in some places.
[[nodiscard]] std::string parse_past_date(std::string_view text, const Where &where);

/// Whether a date as `parse_date` has it names a day, not only a month or year.
[[nodiscard]] bool is_day(std::string_view date);

/// The year with its fraction, e.g. 2023.5 for the middle of 2023, of a date as `parse_date` has
/// it, to a day or two; the middle of a month or year of which no more is known. None for other
/// text.
[[nodiscard]] std::optional<double> decimal_year(std::string_view date);

/// The present moment in UTC, ISO 8601 to the second: 2026-01-31T09:30:00Z.
[[nodiscard]] std::string utc_now();

} // namespace cospot

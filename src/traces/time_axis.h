#pragma once

#include "shared/error.h"
#include "traces/trace.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// How many minutes one unit of time is: seconds or minutes, in full or short, in any case. Nothing
/// for any other text.
[[nodiscard]] std::optional<double> minutes_in(std::string_view unit);

/// How many minutes the unit of a file is. `stated` is what the file says, empty where it says
/// nothing: then `--time-unit` holds. Throws InputError where neither says it, where the file names
/// another unit than seconds or minutes, and where the two contradict each other: a unit is never
/// guessed.
[[nodiscard]] double minutes_per_unit(std::string_view stated, const TraceOptions &options,
                                      const Where &where);

/// Throws InputError with the first point that is wrong: a time or signal that is not finite, a
/// time that is not later than the one before, or more times than signals.
void check_points(const Trace &trace, const Where &where);

/// Throws InputError for more points than are read of one trace.
void check_count(std::uint64_t points, const Where &where);

/// Appends the trace after `check_points`; throws InputError where the file then has too many
/// points.
void add_trace(TraceFile &file, Trace trace, const Where &where);

} // namespace cospot

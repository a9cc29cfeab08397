#pragma once

#include "shared/error.h"
#include "traces/trace.h"

#include <cstdint>
#include <string_view>

namespace cospot {

/// Whether a signal is of a pump or an oven, which holds no peaks: its unit is one of pressure,
/// flow or temperature.
[[nodiscard]] bool is_unit_of_a_pump(std::string_view unit);

/// Throws InputError with the first point that is wrong: a time or signal that is not finite, a
/// time that is not later than the one before, or more times than signals.
void check_points(const Trace &trace, const Where &where);

/// Throws InputError for more points than are read of one trace.
void check_count(std::uint64_t points, const Where &where);

/// Appends the trace after `check_points`; one in a unit of a pump is marked as holding no peaks.
/// Throws InputError where the file then has too many points.
void add_trace(TraceFile &file, Trace trace, const Where &where);

} // namespace cospot

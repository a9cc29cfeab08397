#include "traces/time_axis.h"

#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace cospot {

namespace {

/// With enough digits to tell two points, not all of a double.
std::string time_text(double minutes) {
    return fmt::format("{:.9g} min", minutes);
}

} // namespace

std::optional<double> minutes_in(std::string_view unit) {
    constexpr std::array<std::string_view, 5> seconds{"s", "sec", "secs", "second", "seconds"};
    constexpr std::array<std::string_view, 4> minutes{"min", "mins", "minute", "minutes"};
    const std::string text = lower_ascii(trimmed(unit));
    if (std::find(seconds.begin(), seconds.end(), text) != seconds.end()) {
        return 1.0 / 60.0;
    }
    return std::find(minutes.begin(), minutes.end(), text) != minutes.end() ? std::optional(1.0)
                                                                            : std::nullopt;
}

double minutes_per_unit(std::string_view stated, const TraceOptions &options, const Where &where) {
    const auto own = minutes_in(stated);
    if (!own && !trimmed(stated).empty()) {
        throw InputError(where, "times in the unit " + in_quotes(stated), "seconds or minutes");
    }
    if (options.time_unit.empty()) {
        if (!own) {
            throw InputError(where, "times without a unit", "--time-unit s or --time-unit min");
        }
        return *own;
    }
    const auto given = minutes_in(options.time_unit);
    if (!given) {
        throw bad_usage("--time-unit " + in_quotes(options.time_unit), "s or min");
    }
    if (own && *own != *given) {
        throw InputError(where, "times in " + std::string(trimmed(stated)),
                         "the same unit as --time-unit " + options.time_unit +
                             ", which is needed only where the file states none");
    }
    return *given;
}

void check_points(const Trace &trace, const Where &where) {
    const std::vector<double> &times = trace.time_min;
    if (times.size() != trace.signal.size()) {
        throw InputError(where,
                         fmt::format("{} and {}", counted(times.size(), "time"),
                                     counted(trace.signal.size(), "signal value")),
                         "as many times as signal values");
    }
    for (std::size_t i = 0; i < times.size(); ++i) {
        if (!std::isfinite(times[i]) || !std::isfinite(trace.signal[i])) {
            throw InputError(where, fmt::format("no number at point {} of {}", i + 1, times.size()),
                             "a time and a signal at each point");
        }
        if (i > 0 && times[i] <= times[i - 1]) {
            throw InputError(where,
                             fmt::format("{} at point {} after {}", time_text(times[i]), i + 1,
                                         time_text(times[i - 1])),
                             "times that rise from point to point");
        }
    }
}

void check_count(std::uint64_t points, const Where &where) {
    if (points > kMostTracePoints) {
        throw InputError(where, fmt::format("a trace of {} points", points),
                         fmt::format("at most {} points", kMostTracePoints));
    }
}

void add_trace(TraceFile &file, Trace trace, const Where &where) {
    check_count(trace.time_min.size(), where);
    check_points(trace, where);
    std::size_t points = trace.time_min.size();
    for (const Trace &other : file.traces) {
        points += other.time_min.size();
    }
    if (points > kMostPointsOfFile) {
        throw InputError(where, "traces with more points together than are read",
                         fmt::format("at most {} points in a file", kMostPointsOfFile));
    }
    file.traces.push_back(std::move(trace));
}

} // namespace cospot

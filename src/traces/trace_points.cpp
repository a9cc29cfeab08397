#include "traces/trace_points.h"

#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>

namespace cospot {

namespace {

/// With enough digits to tell two points, not all of a double.
std::string time_text(double minutes) {
    return fmt::format("{:.9g} min", minutes);
}

} // namespace

bool is_unit_of_a_pump(std::string_view unit) {
    if (trimmed(unit) == "pA") { // of a flame ionisation detector, not the pascal
        return false;
    }
    // Degree and micro sign, the latter also as the Greek letter.
    std::string text = lower_ascii(trimmed(unit));
    for (const std::string_view sign : {"\xC2\xB0", "\xC2\xB5", "\xCE\xBC"}) {
        if (text.starts_with(sign)) {
            text.replace(0, sign.size(), sign == "\xC2\xB0" ? "deg" : "u");
        }
    }
    constexpr std::array<std::string_view, 17> units{"pa",
                                                     "hpa",
                                                     "kpa",
                                                     "mpa",
                                                     "mbar",
                                                     "bar",
                                                     "psi",
                                                     "pascal",
                                                     "kelvin",
                                                     "deg c",
                                                     "degc",
                                                     "celsius",
                                                     "degree celsius",
                                                     "ml/min",
                                                     "ul/min",
                                                     "milliliters per minute",
                                                     "microliters per minute"};
    return std::find(units.begin(), units.end(), text) != units.end();
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
    trace.holds_peaks = trace.holds_peaks && !is_unit_of_a_pump(trace.signal_unit);
    file.traces.push_back(std::move(trace));
}

} // namespace cospot

#pragma once

#include "fuzzed.h"
#include "traces/trace_file.h"

#include <cmath>

namespace cospot::fuzz {

/// What each reader of traces promises of what it returns.
inline void require_sound(const TraceFile &file) {
    require(!file.traces.empty(), "a file has a trace");
    for (const Trace &trace : file.traces) {
        require(!trace.time_min.empty(), "a trace has points");
        require(trace.time_min.size() == trace.signal.size(), "each time has a signal");
        for (std::size_t i = 0; i < trace.time_min.size(); ++i) {
            require(std::isfinite(trace.time_min[i]) && std::isfinite(trace.signal[i]),
                    "points are finite");
            require(i == 0 || trace.time_min[i] > trace.time_min[i - 1], "times rise");
        }
    }
    for (const StoredPeak &peak : file.stored_peaks) {
        require(std::isfinite(peak.apex_min), "a stored peak has a time");
    }
    (void)accepts([&] { (void)chosen(file, ""); });
    (void)accepts([&] { (void)chosen(file, "1"); });
}

} // namespace cospot::fuzz

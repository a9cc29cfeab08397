#include "traces/astm_e1947.h"

#include "shared/text.h"
#include "traces/astm_values.h"
#include "traces/stored_text.h"
#include "traces/time_unit.h"
#include "traces/trace_points.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

namespace cospot {

namespace {

constexpr const char *kOrdinate = "ordinate_values";
constexpr const char *kListedTimes = "raw_data_retention";
constexpr const char *kInterval = "actual_sampling_interval";

/// 'Y' or 'N' as `uniform_sampling_flag` says; '\0' where it says neither.
char sampling_flag(AstmValues &values, const NetcdfVariable &ordinate) {
    std::string flag = AstmValues::text_of(ordinate, "uniform_sampling_flag");
    if (flag.empty()) {
        flag = values.text("uniform_sampling_flag");
    }
    const std::string lower = lower_ascii(flag);
    return lower.starts_with('y') ? 'Y' : lower.starts_with('n') ? 'N' : '\0';
}

std::vector<double> evenly_spaced(AstmValues &values, double interval, std::size_t count,
                                  std::vector<std::string> &notes) {
    const auto delay = values.number("actual_delay_time");
    if (!delay) {
        notes.emplace_back("no actual_delay_time: the first point is taken at time 0");
    }
    std::vector<double> times(count);
    for (std::size_t i = 0; i < count; ++i) {
        times[i] = delay.value_or(0.0) + static_cast<double>(i) * interval;
    }
    return times;
}

/// The times in the unit of the file.
std::vector<double> times_of(AstmValues &values, const NetcdfVariable &ordinate, std::size_t count,
                             std::vector<std::string> &notes) {
    const char flag = sampling_flag(values, ordinate);
    const NetcdfVariable *listed = values.netcdf().variable(kListedTimes);
    const auto interval = values.number(kInterval);
    const bool has_interval = interval && *interval > 0.0;
    if (has_interval && (flag == 'Y' || (flag == '\0' && listed == nullptr))) {
        return evenly_spaced(values, *interval, count, notes);
    }
    if (listed == nullptr) {
        throw InputError({values.file(), 0, flag == 'N' ? kListedTimes : kInterval},
                         flag == 'N' ? "no times, though the sampling is not uniform"
                                     : "no interval above 0",
                         fmt::format("{} above 0, or {}", kInterval, kListedTimes));
    }
    return values.points(*listed);
}

/// The times have to span what the file says of the run; else their unit may not be what it says.
void note_run_length(AstmValues &values, const std::vector<double> &times,
                     std::vector<std::string> &notes) {
    constexpr double much = 0.05;
    const auto length = values.number("actual_run_time_length");
    if (!length || *length <= 0.0 || times.empty()) {
        return;
    }
    const double interval = values.number(kInterval).value_or(0.0);
    // The length may count from the injection or the first point, up to the last point or the next.
    double off = std::abs(times.back() - *length);
    for (const double from : {0.0, times.front()}) {
        for (const double more : {0.0, interval}) {
            off = std::min(off, std::abs(times.back() - from + more - *length));
        }
    }
    if (off > much * *length) {
        notes.push_back(fmt::format("! the file says that the run takes {:.6g}, but its points end "
                                    "at {:.6g} (both in its own unit of time)",
                                    *length, times.back()));
    }
}

std::vector<StoredPeak> stored_peaks(AstmValues &values, double minutes,
                                     std::vector<std::string> &notes) {
    const auto apex = values.column("peak_retention_time");
    const auto start = values.column("peak_start_time");
    const auto end = values.column("peak_end_time");
    const auto area = values.column("peak_area");
    const auto height = values.column("peak_height");
    const auto names = values.text_column("peak_name");
    const auto at = [](const auto &column, std::size_t row) {
        return row < column.size() ? column[row] : std::nullopt;
    };
    const auto in_minutes = [&](std::optional<double> time) {
        return time ? std::optional(*time * minutes) : std::nullopt;
    };
    std::vector<StoredPeak> peaks;
    for (std::size_t row = 0; row < apex.size(); ++row) {
        if (apex[row]) {
            peaks.push_back({.name = row < names.size() ? names[row] : "",
                             .apex_min = *apex[row] * minutes,
                             .start_min = in_minutes(at(start, row)),
                             .end_min = in_minutes(at(end, row)),
                             .area = at(area, row),
                             .height = at(height, row)});
        }
    }
    if (peaks.size() < apex.size()) {
        notes.push_back(counted(apex.size() - peaks.size(), "row") +
                        " of the file's table of peaks without a retention time left out");
    }
    return peaks;
}

} // namespace

bool is_astm_e1947(const NetcdfClassic &netcdf) {
    return netcdf.variable(kOrdinate) != nullptr;
}

TraceFile read_astm_e1947(NetcdfClassic &netcdf, const TraceOptions &options) {
    AstmValues values(netcdf);
    const NetcdfVariable &ordinate = *netcdf.variable(kOrdinate);
    TraceFile file{.file = netcdf.file(),
                   .format = "ASTM E1947",
                   .sample = values.text("sample_name"),
                   .injected_at = iso_time_stamp(values.text("injection_date_time_stamp"))};
    const double minutes = minutes_per_unit(values.text("retention_unit"), options,
                                            {netcdf.file(), 0, "retention_unit"});
    Trace trace{.name = values.text("detector_name"), .signal_unit = values.text("detector_unit")};
    trace.signal = values.points(ordinate);
    if (trace.signal.empty()) {
        throw InputError({netcdf.file(), 0, kOrdinate}, "no points", "a chromatogram");
    }
    trace.time_min = times_of(values, ordinate, trace.signal.size(), file.notes);
    note_run_length(values, trace.time_min, file.notes);
    for (double &time : trace.time_min) {
        time *= minutes;
    }
    file.stored_peaks = stored_peaks(values, minutes, file.notes);
    add_trace(file, std::move(trace), {netcdf.file(), 0, kOrdinate});
    return file;
}

} // namespace cospot

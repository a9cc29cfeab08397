#include "traces/astm_e2077.h"

#include "traces/astm_values.h"
#include "traces/stored_text.h"
#include "traces/time_unit.h"
#include "traces/trace_points.h"

#include <utility>

namespace cospot {

namespace {

constexpr const char *kTotal = "total_intensity";
constexpr const char *kScanTimes = "scan_acquisition_time";

} // namespace

bool is_astm_e2077(const NetcdfClassic &netcdf) {
    return netcdf.variable(kTotal) != nullptr && netcdf.variable(kScanTimes) != nullptr;
}

TraceFile read_astm_e2077(NetcdfClassic &netcdf, const TraceOptions &options) {
    AstmValues values(netcdf);
    const NetcdfVariable &total = *netcdf.variable(kTotal);
    const NetcdfVariable &scan_times = *netcdf.variable(kScanTimes);
    TraceFile file{.file = netcdf.file(), .format = "ASTM E2077"};
    file.sample = values.text("sample_name");
    const std::string injected = values.text("injection_date_time_stamp");
    file.injected_at =
        iso_time_stamp(injected.empty() ? values.text("experiment_date_time_stamp") : injected);

    std::string unit = AstmValues::text_of(scan_times, "units");
    if (unit.empty()) {
        unit = "seconds";
        file.notes.emplace_back(
            "scan_acquisition_time states no unit: seconds, as the standard ASTM E2077 has it");
    }
    const double minutes = minutes_per_unit(unit, options, {netcdf.file(), 0, kScanTimes});
    Trace trace{.name = kTotal,
                .kind = "total ion current",
                .signal_unit = AstmValues::text_of(total, "units")};
    trace.signal = values.points(total);
    trace.time_min = values.points(scan_times);
    for (double &time : trace.time_min) {
        time *= minutes;
    }
    if (trace.signal.empty()) {
        throw InputError({netcdf.file(), 0, kTotal}, "no scans", "scans with a total intensity");
    }
    add_trace(file, std::move(trace), {netcdf.file(), 0, kTotal});
    return file;
}

} // namespace cospot

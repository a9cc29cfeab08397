#pragma once

#include "traces/netcdf_classic.h"
#include "traces/trace.h"

namespace cospot {

/// Whether the file holds the scans of ASTM E2077: `total_intensity` and `scan_acquisition_time`.
[[nodiscard]] bool is_astm_e2077(const NetcdfClassic &netcdf);

/// Reads the total ion current of a file of the mass spectrometry template (the variables as
/// astme2077 names them); the mass spectra are passed over. Times are in the unit that
/// `scan_acquisition_time` states; where it states none, in seconds, as the standard has it. Throws
/// InputError for another unit, and as `check_points` does.
[[nodiscard]] TraceFile read_astm_e2077(NetcdfClassic &netcdf, const TraceOptions &options);

} // namespace cospot

#pragma once

#include "traces/netcdf_classic.h"
#include "traces/trace.h"

namespace cospot {

/// Whether the file holds what a chromatogram of ASTM E1947 has to: `ordinate_values`.
[[nodiscard]] bool is_astm_e1947(const NetcdfClassic &netcdf);

/// Reads a chromatogram of ASTM E1947 (the variables as astme1947 names them): one trace and the
/// table of peaks, if there is one. Times are delay + i * interval, or `raw_data_retention` where
/// `uniform_sampling_flag` is N or no interval is given. Throws InputError for a `retention_unit`
/// other than seconds or minutes, for times that neither variable gives, and as `check_points`
/// does. Peaks without a retention time, of which a note tells, are left out.
[[nodiscard]] TraceFile read_astm_e1947(NetcdfClassic &netcdf, const TraceOptions &options);

} // namespace cospot

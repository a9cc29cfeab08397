// A netCDF classic file as a trace is read from it: ASTM E1947 or E2077.
#include "fuzzed_traces.h"
#include "traces/astm_e1947.h"
#include "traces/astm_e2077.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    std::istringstream in(fuzz::text_of(data, size));
    (void)fuzz::accepts_file([&] {
        NetcdfClassic netcdf(in, fuzz::kFile);
        if (is_astm_e1947(netcdf)) {
            fuzz::require_sound(read_astm_e1947(netcdf, {}));
        }
        if (is_astm_e2077(netcdf)) {
            fuzz::require_sound(read_astm_e2077(netcdf, {}));
        }
    });
    return 0;
}

// A list of peaks as `identify`, `learn`, `purity` and `distil` read it.
#include "fuzzed.h"
#include "readers/chromatogram_table.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    std::istringstream in(fuzz::text_of(data, size));
    (void)fuzz::accepts_file([&] {
        for (const Peak &peak : read_chromatogram(in, fuzz::kFile)) {
            fuzz::require(peak.retention_time_min > 0.0, "times are above 0");
            fuzz::require(peak.area.value_or(0.0) >= 0.0, "areas are not negative");
        }
    });
    return 0;
}

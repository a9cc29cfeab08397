// Where bands left a column, as `learn` reads it.
#include "fuzzed.h"
#include "readers/column_run_table.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    std::istringstream in(fuzz::text_of(data, size));
    (void)fuzz::accepts_file([&] {
        for (const ColumnRunRow &row : read_column_runs(in, fuzz::kFile, {}).rows) {
            const fractions::SeenBand &band = row.band;
            fuzz::require(band.rf > 0.0 && band.rf < 1.0, "an R_F is neither start nor front");
            fuzz::require(band.start_ml > 0.0 && band.start_ml < band.end_ml,
                          "a band starts before it ends");
            fuzz::require(!band.peak_ml ||
                              (*band.peak_ml > band.start_ml && *band.peak_ml < band.end_ml),
                          "a peak lies in its band");
        }
    });
    return 0;
}

// Fractions of a column, as spots or as the signal of a detector, as `pool` reads them.
#include "fuzzed.h"
#include "readers/fraction_table.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    std::istringstream in(fuzz::text_of(data, size));
    (void)fuzz::accepts_file([&] {
        const FractionTable table = read_fractions(in, fuzz::kFile);
        fuzz::require(table.is_trace() == table.lanes.empty(), "spots or a trace, not both");
        for (const fractions::Lane &lane : table.lanes) {
            for (const fractions::Spot &spot : lane.spots) {
                fuzz::require(spot.rf >= 0.0 && spot.rf <= 1.0, "an R_F lies between 0 and 1");
            }
        }
    });
    return 0;
}

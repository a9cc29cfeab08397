// A plate as `identify` and `learn` read it.
#include "fuzzed.h"
#include "readers/plate_table.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    std::istringstream in(fuzz::text_of(data, size));
    (void)fuzz::accepts_file([&] {
        for (const PlateSpot &spot : read_plate(in, fuzz::kFile)) {
            fuzz::require(spot.distance_mm >= 0.0 &&
                              (!spot.front_mm || spot.distance_mm <= *spot.front_mm),
                          "a spot lies between start and front");
        }
    });
    return 0;
}

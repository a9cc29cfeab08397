// Prior weights of `identify`.
#include "fuzzed.h"
#include "readers/prior_table.h"

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    std::istringstream in(fuzz::text_of(data, size));
    (void)fuzz::accepts_file([&] {
        for (const PriorWeight &prior : read_prior(in, fuzz::kFile)) {
            fuzz::require(prior.weight > 0.0 && prior.weight <= 1e6, "a weight lies in its range");
        }
    });
    return 0;
}

// The table of systems, and what is made of its mobile and stationary phases.
#include "fuzzed.h"
#include "quantities/stationary_phase.h"
#include "readers/systems_table.h"

#include <cmath>
#include <numeric>

using namespace cospot;

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    std::istringstream in(fuzz::text_of(data, size));
    (void)fuzz::accepts_file([&] {
        for (const SystemRow &row : read_systems(in, fuzz::kFile)) {
            (void)quantities::liquid_phase_of(row.system.stationary_phase);
            (void)quantities::gas_phase_of(row.system.stationary_phase);
            const auto fractions = volume_fractions(row.eluent);
            const double sum = std::accumulate(fractions.begin(), fractions.end(), 0.0);
            fuzz::require(row.eluent.empty() || std::abs(sum - 1.0) < 1e-9, "fractions sum to 1");
        }
    });
    return 0;
}

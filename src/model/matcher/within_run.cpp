#include "model/matcher/within_run.h"

#include <algorithm>
#include <cmath>

namespace cospot::matcher {

namespace {

constexpr double kFinestSpreadShare = 0.05; ///< of it: rounding hides smaller differences
constexpr double kAssumedFreedom = 4.0;     ///< what the assumption or the library counts

} // namespace

WithinRun within_run(const SystemModel &system, std::span<const std::vector<double>> repeats) {
    const double between = system.spread.assumed;
    const bool library_knows = system.within_run_variance > 0.0;
    const double before =
        library_knows ? system.within_run_variance : std::pow(kShareWithinRun * between, 2);
    double squares = 0.0;
    double freedom = 0.0;
    for (const std::vector<double> &readings : repeats) {
        double mean = 0.0;
        for (const double reading : readings) {
            mean += reading / static_cast<double>(readings.size());
        }
        for (const double reading : readings) {
            squares += (reading - mean) * (reading - mean);
        }
        freedom += static_cast<double>(readings.size()) - 1.0;
    }
    const double pooled = (kAssumedFreedom * before + squares) / (kAssumedFreedom + freedom);
    return {std::max(pooled, std::pow(kFinestSpreadShare * between, 2)),
            !library_knows && freedom <= 0.0};
}

} // namespace cospot::matcher

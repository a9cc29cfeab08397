#pragma once

#include "matcher/candidate_density.h"
#include "matcher/spread.h"
#include "matcher/unlisted_density.h"
#include "shared/quantity.h"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace cospot::matcher {

/// A value that the library holds for a compound on the system.
struct KnownValue {
    std::size_t compound; ///< index in the problem's list of compounds
    std::int64_t run;     ///< values of one run share its run-to-run deviation
    bool run_is_named;    ///< false: each value counts as a run of its own
    double value;         ///< in the unit of the quantity
};

/// What the library says about one system: the expected density of each compound measured on it,
/// and that of a compound it does not hold.
struct SystemModel {
    Quantity quantity = Quantity::Rf;
    SpreadPrior spread;                       ///< between runs
    double within_run_variance = 0.0;         ///< of replicates in one run, model scale
    std::vector<CandidateDensity> candidates; ///< in the order of compounds
    UnlistedDensity unlisted;
};

/// Fits the model to values that are grouped by compound (all values of one compound together).
[[nodiscard]] SystemModel fit_system(Quantity quantity, const std::vector<KnownValue> &values);

/// The density of a compound on this system, or null where it was not measured.
[[nodiscard]] const CandidateDensity *find_candidate(const SystemModel &model,
                                                     std::size_t compound);

} // namespace cospot::matcher

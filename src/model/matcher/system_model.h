#pragma once

#include "model/matcher/candidate_density.h"
#include "model/matcher/run_counts.h"
#include "model/matcher/run_effects.h"
#include "model/matcher/spread.h"
#include "model/matcher/unlisted_density.h"
#include "shared/quantity.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace cospot::matcher {

/// What the library says about one system: the expected density of each compound measured on it (or
/// of those that matter), and that of a compound it does not hold.
struct SystemModel {
    Quantity quantity = Quantity::Rf;
    Technique technique = Technique::tlc;
    SpreadPrior spread;                       ///< between runs, beyond what all compounds share
    RunShift shift;                           ///< of a run that is not known yet
    double within_run_variance = 0.0;         ///< of replicates in one run, model scale
    RunCounts run_counts;                     ///< how often its compounds come up
    std::vector<CandidateDensity> candidates; ///< in the order of compounds
    /// Compounds that were measured too but left out of the candidates, since what was observed
    /// cannot be them. Only where one system tells about all features: of several the same
    /// compounds could be left out.
    std::size_t out_of_reach = 0;
    /// Compounds that the library holds on systems of the same kind, but of which nothing is known
    /// on this one: they may be what was observed, and would show what an unlisted one does.
    std::size_t elsewhere = 0;
    /// Positions of the candidates in the order of location, which takes longer to find than most
    /// answers; empty where it is not known, e.g. since candidates were added.
    std::vector<std::uint32_t> by_location;
    UnlistedDensity unlisted;
    /// Of the youngest dated value, with its fraction; none where no value is dated.
    std::optional<double> newest_year;
    double years_since = 0.0; ///< from then to the run that is asked about
};

/// Fits the model to values that are grouped by compound (all values of one compound together). A
/// value that states its uncertainty weighs less in the mean, and the mean is less certain by it.
[[nodiscard]] SystemModel fit_system(Technique technique, Quantity quantity,
                                     const std::vector<KnownValue> &values);

/// Positions of the candidates in the order of location.
[[nodiscard]] std::vector<std::uint32_t> ordered_by_location(const SystemModel &model);

/// How many candidates there are, left out or not.
[[nodiscard]] inline std::size_t candidate_count(const SystemModel &model) {
    return model.candidates.size() + model.out_of_reach;
}

/// The density of a compound on this system, or null where it was not measured or is left out.
[[nodiscard]] const CandidateDensity *find_candidate(const SystemModel &model,
                                                     std::size_t compound);

} // namespace cospot::matcher

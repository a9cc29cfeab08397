#pragma once

#include "model/matcher/likelihood.h"

#include <bit>
#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <span>
#include <vector>

namespace cospot::matcher {

/// What was believed before the measurement.
struct Prior {
    double unlisted = 0.2;         ///< probability that the feature is none of the candidates
    std::vector<double> weights{}; ///< of the compounds, relative; empty: all equal
    double out_of_reach = 1.0; ///< weight of each of those that the systems' models left out, mean
    std::map<std::size_t, double> factors{}; ///< of some of these weights

    [[nodiscard]] double weight_of(std::size_t compound) const {
        const double weight = compound < weights.size() ? weights[compound] : 1.0;
        const auto factor = factors.find(compound);
        return factor == factors.end() ? weight : factor->second * weight;
    }

    /// Sum over compounds.
    [[nodiscard]] double weight_of(const ListedCompounds &listed) const;
};

/// The prior with the weights that the numbers of runs of the observed systems tell, where it has
/// none of its own. On several systems the mean of the weights that each compound has there.
[[nodiscard]] Prior with_run_counts(Prior prior, std::span<const Observation> observations,
                                    const Knowledge &knowledge);

/// The weight of a compound by its number of runs, as above.
[[nodiscard]] double run_weight(std::size_t compound, std::span<const Observation> observations,
                                const Knowledge &knowledge);

/// Compounds of the library that may be a feature, but of which nothing is known where it was seen.
struct HeldElsewhere {
    std::size_t compounds = 0;
    double share = 0.0; ///< of what is stated as unlisted
};

/// Adds to the probability of unlisted that of compounds held elsewhere, each as likely as a listed
/// one before measuring. On several systems those count of which nothing is known on any.
HeldElsewhere add_held_elsewhere(Prior &prior, std::span<const Observation> observations,
                                 const Knowledge &knowledge, const ListedCompounds &listed);

/// A compound with its probability.
struct RankedCandidate {
    std::size_t compound = 0; ///< index in the problem's list of compounds
    double probability = 0.0;
    Basis basis = Basis::measured; ///< set by `note_bases`
};

/// All candidates of one feature, the likeliest first; with `unlisted` they sum to 1.
struct Ranking {
    std::vector<RankedCandidate> candidates;
    double unlisted = 1.0;
};

/// How one observation bears on one candidate, in the unit of the quantity.
struct Comparison {
    std::size_t observation = 0; ///< index in the feature's observations
    double expected = 0.0;
    double spread = 0.0;    ///< predictive standard spread, the reading's uncertainty included
    double deviation = 0.0; ///< observed minus expected
    Basis basis = Basis::measured;
    std::size_t runs = 0;               ///< independent runs behind the expected value
    std::optional<double> in_library{}; ///< the library's value, before it was moved to the run
    std::optional<double> beside{};     ///< the reading of a standard in the same run
};

/// Bayes' rule for one feature by itself, over all compounds that have a density on at least one
/// observed system, and `unlisted`. `nearby` as of `nearby_candidates`.
[[nodiscard]] Ranking rank_candidates(std::span<const Observation> observations,
                                      const Knowledge &knowledge,
                                      std::span<const NearbyCandidates> nearby, const Prior &prior);

/// Notes where the expected values of the candidates come from: of one observed on several systems
/// the least direct one counts (predicted, then beside a standard, then transferred).
void note_bases(Ranking &ranking, std::span<const Observation> observations,
                std::span<const SystemModel> systems);

/// Probabilities in the order of their keys: what differs by less than some 1e-9 of itself, which
/// may be rounding, is equal. The key is the number rounded to 30 bits after the first.
[[nodiscard]] inline std::uint64_t order_key(double probability) {
    constexpr int dropped = 22;
    return (std::bit_cast<std::uint64_t>(probability) + (std::uint64_t{1} << (dropped - 1))) >>
           dropped;
}

/// The likeliest candidate first; equal ones (see `order_key`) in the order of compounds.
void sort_by_probability(Ranking &ranking);

/// The comparison of a candidate with each observation on a system where it has a density, or
/// beside which it ran as a standard.
[[nodiscard]] std::vector<Comparison> compare(std::size_t compound,
                                              std::span<const Observation> observations,
                                              std::span<const SystemModel> systems);

/// The shortest list that holds the truth with the probability `coverage`: how many of the ranked
/// candidates it takes, and whether `unlisted` is among them (where its rank puts it).
struct CandidateSet {
    std::size_t candidates = 0;
    bool unlisted = false;
};
[[nodiscard]] CandidateSet candidate_set(const Ranking &ranking, double coverage);

} // namespace cospot::matcher

#pragma once

#include "model/matcher/assignment.h"
#include "model/matcher/likelihood.h"
#include "model/matcher/ranking.h"

#include <span>
#include <vector>

namespace cospot::matcher {

/// One spot or peak of a sample: what was observed of it, and what else is known.
struct SampleFeature {
    std::vector<Observation> observations;
    std::vector<double>
        further; ///< log likelihood ratio of each compound from other evidence; or empty
};

/// What was believed of a sample before it was measured.
struct SamplePrior {
    Prior feature;              ///< of one feature
    bool learn_unlisted = true; ///< the sample's own features correct the share of unlisted ones
};

/// The features of one lane or run, judged together.
struct SampleRanking {
    std::vector<Ranking> features;
    /// Of each feature by itself, before a compound was kept from explaining two: for each compound
    /// the odds against unlisted, prior and all evidence of the feature taken together.
    std::vector<std::vector<Edge>> odds;
    std::size_t compounds = 0;     ///< that share the prior, out of reach or not
    HeldElsewhere elsewhere{};     ///< in `unlisted` of the rankings
    double unlisted_share = 0.2;   ///< of features that are unlisted, as it was used
    bool share_is_learned = false; ///< from the features of the sample
    double error = 0.0;            ///< of any probability, from sums that were cut off
    ErrorBasis error_basis = ErrorBasis::rounding; ///< how that is known
};

/// What standards beside a sample weigh before measuring, together: who spots a standard beside a
/// sample thinks of its compound (an assumption, MODEL.md section 4).
inline constexpr double kShareOfStandards = 0.5;

/// The same where nothing but the standards is known, of what is left to listed compounds.
inline constexpr double kShareOfLoneStandards = 0.75;

/// The prior with the standards that ran beside the observations raised to their share.
[[nodiscard]] Prior with_standards(Prior prior, std::span<const Observation> observations,
                                   const ListedCompounds &listed);

/// Bayes' rule for a whole sample, whose run was registered (`register_run`): a compound explains
/// at most one feature, and the share of unlisted features is what the sample shows, with the prior
/// counting as four features. With N features and C compounds of equal weight, each compound is
/// taken to be present with probability (1 - unlisted) N / C, among several features 0.9 at most;
/// unlisted compounds come by chance, as many as are missing. `nearby` as of `nearby_candidates`.
[[nodiscard]] SampleRanking rank_sample(std::span<const SampleFeature> features,
                                        const Knowledge &knowledge,
                                        std::span<const NearbyCandidates> nearby,
                                        const SamplePrior &prior);

} // namespace cospot::matcher

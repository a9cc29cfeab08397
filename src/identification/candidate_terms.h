#pragma once

#include "model/matcher/ranking.h"
#include "model/matcher/retention_scale.h"
#include "model/matcher/sample.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace cospot {

/// What the matcher was asked about the features of one run, and what it answered.
struct RankedRun {
    std::span<const matcher::SampleFeature> features;
    const matcher::SampleRanking *ranking;
    const matcher::Knowledge *knowledge;
    std::span<const matcher::NearbyCandidates> nearby; ///< of `knowledge`
    const matcher::Prior *prior;
};

/// What one reading says about a candidate. All `log` terms here and below are natural logarithms
/// of the factor by which odds against `unlisted` change: above 0 where they rise.
struct ReadingTerm {
    double log_ratio = 0.0; ///< of the candidate's density to that of `unlisted`
    matcher::Comparison comparison;
    double widening = 1.0; ///< spread, in those of a compound that was measured on the system
    matcher::Censoring end = matcher::Censoring::none;
};

/// A feature less likely than this to be a compound is no rival for it.
inline constexpr double kRivalWorthNaming = 0.05;

/// Another feature of the run that may be the same compound.
struct Rival {
    std::size_t feature = 0; ///< position in the run
    double probability = 0.0;
};

/// All that made a candidate likely or not. The terms sum to the logarithm of its stated
/// probability over that of `unlisted`.
struct CandidateTerms {
    double log_prior = 0.0;            ///< before measuring, `weight` included
    std::vector<ReadingTerm> readings; ///< one for each system where something is expected of it
    double log_together = 0.0;    ///< readings on several systems are not independent of each other
    double log_further = 0.0;     ///< other evidence than retention
    double log_competition = 0.0; ///< a compound explains at most one feature of the run
    double log_recalibration = 0.0;

    double weight = 1.0;        ///< that the user gave, 1 for all others
    double run_weight = 1.0;    ///< that the library's runs give, 1 on average
    double alone = 0.0;         ///< probability of the feature by itself
    double joint = 0.0;         ///< probability within the run, before recalibration
    double stated = 0.0;        ///< probability as it is stated
    std::optional<Rival> rival; ///< the feature that is likeliest to be this compound, beside this
};

/// The terms of candidates of one feature of the run; `stated` holds their probabilities as they
/// are stated, `stated_unlisted` that of `unlisted`. Each candidate must have been ranked.
[[nodiscard]] std::vector<CandidateTerms>
candidate_terms(const RankedRun &run, std::size_t feature,
                std::span<const matcher::RankedCandidate> stated, double stated_unlisted);

} // namespace cospot

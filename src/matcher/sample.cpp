#include "matcher/sample.h"

#include "matcher/run_shift.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace cospot::matcher {

namespace {

constexpr double kMostPresent = 0.9; ///< probability that a compound is present, before measuring
constexpr double kPriorFeatures = 4.0;
constexpr std::size_t kFewestToLearn = 5;
constexpr int kRounds = 5;
constexpr double kLeastShare = 0.01; ///< that a sample may teach, of unlisted features
constexpr double kMostLogOdds = 690.0;
constexpr double kNegligible = 1e-8;    ///< probability
constexpr std::size_t kFewestKept = 50; ///< compounds of a feature

using Ratios = std::vector<std::vector<LikelihoodRatio>>; ///< by feature

Ratios ratios_of(std::span<const SampleFeature> features, const Knowledge &knowledge,
                 std::span<const NearbyCandidates> nearby, std::span<const RunShift> shifts) {
    Ratios ratios;
    for (const SampleFeature &feature : features) {
        ratios.push_back(likelihood_ratios(feature.observations, knowledge, nearby, shifts));
        if (!feature.further.empty()) {
            for (LikelihoodRatio &ratio : ratios.back()) {
                ratio.log_ratio += feature.further[ratio.compound];
            }
        }
    }
    return ratios;
}

/// Odds, before measuring, that a feature is a certain compound against unlisted.
class PriorOdds {
public:
    PriorOdds(std::size_t features, const std::vector<std::size_t> &compounds, const Prior &prior,
              double unlisted)
        : prior_(&prior), features_(static_cast<double>(features)),
          listed_(features_ * (1.0 - unlisted)) {
        for (const std::size_t compound : compounds) {
            weight_ += prior.weight_of(compound);
        }
        double present = 0.0;
        for (const std::size_t compound : compounds) {
            present += presence(compound);
        }
        by_chance_ = std::max(features_ - present, features_ * unlisted);
    }

    [[nodiscard]] double of(std::size_t compound) const {
        const double present = presence(compound);
        // Of one feature alone the shares must be those of the prior; among many, a compound that
        // explains none of them has to be absent.
        return present / (1.0 - present * (features_ - 1.0) / features_) / by_chance_;
    }

private:
    [[nodiscard]] double presence(std::size_t compound) const {
        if (weight_ <= 0.0) {
            return 0.0;
        }
        const double most = features_ > 1.0 ? kMostPresent : 1.0;
        return std::min(most, listed_ * prior_->weight_of(compound) / weight_);
    }

    const Prior *prior_;
    double features_;
    double listed_;
    double weight_ = 0.0;
    double by_chance_ = 1.0;
};

/// Leaves out the least likely compounds of a feature, as long as they hold less than `kNegligible`
/// together; the order stays.
void leave_out_negligible(std::vector<Edge> &edges) {
    std::vector<double> odds;
    odds.reserve(edges.size());
    double total = 1.0;
    for (const Edge &edge : edges) {
        odds.push_back(edge.odds);
        total += edge.odds;
    }
    std::sort(odds.begin(), odds.end());
    const std::size_t most = odds.size() - std::min(odds.size(), kFewestKept);
    std::size_t left_out = 0;
    for (double sum = 0.0; left_out < most; ++left_out) {
        sum += odds[left_out];
        if (sum > kNegligible * total) {
            break;
        }
    }
    if (left_out > 0) {
        const double least = odds[left_out];
        std::erase_if(edges, [&](const Edge &edge) { return edge.odds < least; });
    }
}

AssignmentProblem problem_of(const Ratios &ratios, const PriorOdds &prior) {
    AssignmentProblem problem;
    for (const auto &feature : ratios) {
        std::vector<Edge> edges;
        edges.reserve(feature.size());
        for (const LikelihoodRatio &ratio : feature) {
            const double odds = prior.of(ratio.compound);
            const double log_odds = odds > 0.0 ? std::log(odds) + ratio.log_ratio : -kMostLogOdds;
            edges.push_back({ratio.compound, std::exp(std::min(log_odds, kMostLogOdds))});
        }
        problem.features.push_back(std::move(edges));
    }
    return problem;
}

/// Probability of unlisted of a feature by itself.
double unlisted_alone(const std::vector<Edge> &edges) {
    double sum = 1.0;
    for (const Edge &edge : edges) {
        sum += edge.odds;
    }
    return 1.0 / sum;
}

/// The share of unlisted features, corrected by what the sample shows (EM with a prior count).
double learned_share(const Ratios &ratios, const std::vector<std::size_t> &compounds,
                     const SamplePrior &prior) {
    double share = prior.feature.unlisted;
    if (!prior.learn_unlisted || ratios.size() < kFewestToLearn) {
        return share;
    }
    for (int round = 0; round < kRounds; ++round) {
        const AssignmentProblem problem =
            problem_of(ratios, PriorOdds(ratios.size(), compounds, prior.feature, share));
        double unlisted = kPriorFeatures * prior.feature.unlisted;
        for (const auto &edges : problem.features) {
            unlisted += unlisted_alone(edges);
        }
        share = std::clamp(unlisted / (kPriorFeatures + static_cast<double>(ratios.size())),
                           kLeastShare, 1.0 - kLeastShare);
    }
    return share;
}

Ranking ranking_of(const std::vector<Edge> &edges, const FeatureMarginals &marginals) {
    Ranking ranking;
    ranking.unlisted = marginals.unlisted;
    for (std::size_t i = 0; i < edges.size(); ++i) {
        ranking.candidates.push_back({edges[i].compound, marginals.probabilities[i]});
    }
    sort_by_probability(ranking);
    return ranking;
}

} // namespace

SampleRanking rank_sample(std::span<const SampleFeature> features, const Knowledge &knowledge,
                          const SamplePrior &prior) {
    std::vector<std::vector<Observation>> observations;
    std::vector<Observation> all;
    for (const SampleFeature &feature : features) {
        observations.push_back(feature.observations);
        all.insert(all.end(), feature.observations.begin(), feature.observations.end());
    }
    const std::vector<NearbyCandidates> nearby = nearby_candidates(knowledge);
    SampleRanking result;
    result.shifts = estimate_shifts(observations, knowledge, nearby, prior.feature);
    const Ratios ratios = ratios_of(features, knowledge, nearby, result.shifts);
    const std::vector<std::size_t> compounds = compounds_on(all, knowledge);
    result.compounds = compounds.size();
    result.unlisted_share = learned_share(ratios, compounds, prior);
    AssignmentProblem problem = problem_of(
        ratios, PriorOdds(ratios.size(), compounds, prior.feature, result.unlisted_share));
    for (auto &edges : problem.features) {
        leave_out_negligible(edges);
    }
    const Marginals marginals = assign(problem);
    result.error = marginals.error_bound;
    result.error_basis = marginals.error_basis;
    for (std::size_t i = 0; i < features.size(); ++i) {
        result.features.push_back(ranking_of(problem.features[i], marginals.features[i]));
    }
    result.odds = std::move(problem.features);
    return result;
}

} // namespace cospot::matcher

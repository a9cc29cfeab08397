#include "model/matcher/sample.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace cospot::matcher {

namespace {

constexpr double kMostPresent = 0.9; ///< probability that a compound is present, before measuring
// The share of unlisted features is learned from five on, the prior counting as four: fewer would
// turn on one feature (assumed). It settles to a thousandth within five rounds, and stays off 0 and
// 1, which no further evidence could move.
constexpr double kPriorFeatures = 4.0;
constexpr std::size_t kFewestToLearn = 5;
constexpr int kMatchingRounds = 5;
constexpr double kLeastShare = 0.01;
/// exp(709.8) is the largest number: sums of some million odds stay below it.
constexpr double kMostLogOdds = 690.0;
/// What is left out of a feature's compounds is far below the digits shown; the first fifty stay
/// whatever they weigh, since a matching may need them.
constexpr double kNegligibleShare = 1e-8;
constexpr std::size_t kFewestKept = 50;

/// By feature the compounds in reach; the odds are those of the evidence alone, without a prior.
using Likelihoods = std::vector<std::vector<Edge>>;

Likelihoods likelihoods_of(std::span<const SampleFeature> features, const Knowledge &knowledge,
                           std::span<const NearbyCandidates> nearby) {
    Likelihoods likelihoods;
    for (const SampleFeature &feature : features) {
        std::vector<Edge> &edges = likelihoods.emplace_back();
        for (const auto &[compound, retention] :
             likelihood_ratios(feature.observations, knowledge, nearby)) {
            const double further = feature.further.empty() ? 0.0 : feature.further[compound];
            edges.push_back({compound, std::exp(std::min(retention + further, kMostLogOdds))});
        }
    }
    return likelihoods;
}

/// Odds, before measuring, that a feature is a certain compound against unlisted.
class PriorOdds {
public:
    PriorOdds(std::size_t features, const ListedCompounds &listed, const Prior &prior,
              double unlisted)
        : prior_(&prior), features_(static_cast<double>(features)),
          listed_(features_ * (1.0 - unlisted)), weight_(prior.weight_of(listed)) {
        double present = 0.0;
        if (prior.weights.empty()) { // all compounds alike, and there may be many
            present = static_cast<double>(listed.count()) * presence(1.0);
            for (const auto &[compound, factor] : prior.factors) {
                present += presence(factor) - presence(1.0);
            }
        } else {
            for (const std::size_t compound : listed.candidates) {
                present += presence(prior.weight_of(compound));
            }
            present += static_cast<double>(listed.out_of_reach) * presence(prior.out_of_reach);
        }
        by_chance_ = std::max(features_ - present, features_ * unlisted);
    }

    [[nodiscard]] double of(std::size_t compound) const {
        const double present = presence(prior_->weight_of(compound));
        // Of one feature alone the shares must be those of the prior; among many, a compound that
        // explains none of them has to be absent.
        return present / (1.0 - present * (features_ - 1.0) / features_) / by_chance_;
    }

private:
    [[nodiscard]] double presence(double weight) const {
        if (weight_ <= 0.0) {
            return 0.0;
        }
        const double most = features_ > 1.0 ? kMostPresent : 1.0;
        return std::min(most, listed_ * weight / weight_);
    }

    const Prior *prior_;
    double features_;
    double listed_;
    double weight_ = 0.0;
    double by_chance_ = 1.0;
};

/// Leaves out the least likely compounds of a feature, which hold less than `kNegligibleShare`
/// together.
void leave_out_negligible(std::vector<Edge> &edges) {
    if (edges.size() <= kFewestKept) {
        return;
    }
    double total = 1.0;
    for (const Edge &edge : edges) {
        total += edge.odds;
    }
    const double least = kNegligibleShare * total / static_cast<double>(edges.size());
    const auto is_likelier = [](const Edge &a, const Edge &b) { return a.odds > b.odds; };
    const auto kept = edges.begin() + static_cast<std::ptrdiff_t>(kFewestKept);
    std::nth_element(edges.begin(), kept - 1, edges.end(), is_likelier);
    edges.erase(
        std::remove_if(kept, edges.end(), [&](const Edge &edge) { return edge.odds < least; }),
        edges.end());
}

AssignmentProblem problem_of(const Likelihoods &likelihoods, const PriorOdds &prior) {
    static const double most = std::exp(kMostLogOdds);
    AssignmentProblem problem{likelihoods};
    for (auto &edges : problem.features) {
        for (Edge &edge : edges) {
            edge.odds = std::min(prior.of(edge.compound) * edge.odds, most);
        }
        leave_out_negligible(edges);
    }
    return problem;
}

/// Probability of unlisted of a feature by itself.
double unlisted_alone(const std::vector<Edge> &likelihoods, const PriorOdds &prior) {
    double sum = 1.0;
    for (const Edge &edge : likelihoods) {
        sum += prior.of(edge.compound) * edge.odds;
    }
    return 1.0 / sum;
}

/// How many features there is something to compare with.
std::size_t compared_features(const Likelihoods &likelihoods) {
    return static_cast<std::size_t>(
        std::count_if(likelihoods.begin(), likelihoods.end(),
                      [](const std::vector<Edge> &edges) { return !edges.empty(); }));
}

/// The share of unlisted features, corrected by what the sample shows (EM with a prior count).
double learned_share(const Likelihoods &likelihoods, const ListedCompounds &listed,
                     const SamplePrior &prior) {
    double share = prior.feature.unlisted;
    const std::size_t compared = compared_features(likelihoods);
    if (!prior.learn_unlisted || compared < kFewestToLearn) {
        return share;
    }
    for (int round = 0; round < kMatchingRounds; ++round) {
        const PriorOdds odds(compared, listed, prior.feature, share);
        double unlisted = kPriorFeatures * prior.feature.unlisted;
        for (const auto &edges : likelihoods) {
            unlisted += edges.empty() ? 0.0 : unlisted_alone(edges, odds);
        }
        share = std::clamp(unlisted / (kPriorFeatures + static_cast<double>(compared)), kLeastShare,
                           1.0 - kLeastShare);
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

Prior with_standards(Prior prior, std::span<const Observation> observations,
                     const ListedCompounds &listed) {
    std::set<std::size_t> compounds;
    for (const StandardsInRun *standards : distinct_standards(observations)) {
        for (const StandardInRun &standard : *standards) {
            compounds.insert(standard.compound);
        }
    }
    double own = 0.0;
    for (const std::size_t compound : compounds) {
        own += prior.weight_of(compound);
    }
    const double others = prior.weight_of(listed) - own;
    if (compounds.empty() || own <= 0.0) {
        return prior;
    }
    if (others <= 0.0) { // nothing else is known: what is not known is likelier than usual
        prior.unlisted = 1.0 - kShareOfLoneStandards * (1.0 - prior.unlisted);
        return prior;
    }
    const double factor =
        std::max(1.0, kShareOfStandards / (1.0 - kShareOfStandards) * others / own);
    for (const std::size_t compound : compounds) {
        prior.factors[compound] = factor;
    }
    return prior;
}

SampleRanking rank_sample(std::span<const SampleFeature> features, const Knowledge &knowledge,
                          std::span<const NearbyCandidates> nearby, const SamplePrior &prior) {
    std::vector<Observation> all;
    for (const SampleFeature &feature : features) {
        all.insert(all.end(), feature.observations.begin(), feature.observations.end());
    }
    const ListedCompounds listed = listed_on(all, knowledge);
    SamplePrior before = prior;
    before.feature = with_standards(with_run_counts(prior.feature, all, knowledge), all, listed);
    const HeldElsewhere elsewhere = add_held_elsewhere(before.feature, all, knowledge, listed);
    const Likelihoods likelihoods = likelihoods_of(features, knowledge, nearby);
    SampleRanking result;
    result.compounds = listed.count();
    result.elsewhere = elsewhere;
    result.unlisted_share = learned_share(likelihoods, listed, before);
    result.share_is_learned = result.unlisted_share != before.feature.unlisted;
    AssignmentProblem problem =
        problem_of(likelihoods, PriorOdds(std::max<std::size_t>(1, compared_features(likelihoods)),
                                          listed, before.feature, result.unlisted_share));
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

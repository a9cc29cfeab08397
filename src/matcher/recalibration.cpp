#include "matcher/recalibration.h"

#include <algorithm>
#include <cmath>

namespace cospot::matcher {

namespace {

constexpr double kSmallestProbability = 1e-12;
constexpr double kPriorRankings = 20.0;
constexpr double kFirstStep = 0.4; ///< of the logarithms of the two parameters
constexpr double kLastStep = 0.01;

double score(std::span<const JudgedRanking> judged, double log_exponent) {
    const Recalibration recalibration{std::exp(log_exponent)};
    double sum = -0.5 * kPriorRankings * log_exponent * log_exponent;
    for (const JudgedRanking &one : judged) {
        sum += std::log(probability_of_truth(recalibrated(one.ranking, recalibration), one.truth) +
                        kSmallestProbability);
    }
    return sum;
}

/// The logarithm of the exponent with the highest score, by steps that become smaller.
double best_log_exponent(std::span<const JudgedRanking> judged) {
    double position = 0.0;
    double best = score(judged, position);
    for (double step = kFirstStep; std::abs(step) > kLastStep;) {
        const double now = score(judged, position + step);
        if (now > best) {
            best = now;
            position += step;
        } else {
            step *= step > 0.0 ? -1.0 : -0.5;
        }
    }
    return position;
}

Recalibration with_set_limit(std::span<const JudgedRanking> judged, double exponent) {
    Recalibration recalibration{exponent};
    std::vector<double> of_truth;
    for (const JudgedRanking &one : judged) {
        if (one.truth != kUnlisted) { // `unlisted` is easily in the set: it would hide misses
            of_truth.push_back(
                probability_of_truth(recalibrated(one.ranking, recalibration), one.truth));
        }
    }
    std::sort(of_truth.begin(), of_truth.end());
    const auto n = static_cast<double>(of_truth.size());
    const auto rank = static_cast<std::size_t>(std::floor((n + 1) * (1.0 - kSetCoverage)));
    // With few questions no limit is sure enough: everything belongs to the set.
    recalibration.least_in_set =
        rank == 0 ? kSmallestProbability
                  : std::clamp(of_truth[rank - 1], kSmallestProbability, kWorthNaming);
    return recalibration;
}

} // namespace

double probability_of_truth(const Ranking &ranking, std::size_t truth) {
    if (truth == kUnlisted) {
        return ranking.unlisted;
    }
    for (const RankedCandidate &candidate : ranking.candidates) {
        if (candidate.compound == truth) {
            return candidate.probability;
        }
    }
    return 0.0;
}

CandidateSet candidate_set(const Ranking &ranking, const Recalibration &recalibration) {
    if (recalibration.least_in_set <= 0.0) {
        return candidate_set(ranking, kSetCoverage);
    }
    const auto end = std::find_if(ranking.candidates.begin(), ranking.candidates.end(),
                                  [&](const RankedCandidate &candidate) {
                                      return candidate.probability < recalibration.least_in_set;
                                  });
    CandidateSet set{static_cast<std::size_t>(end - ranking.candidates.begin()),
                     ranking.unlisted >= recalibration.least_in_set};
    if (set.candidates == 0 && !set.unlisted) {
        set = candidate_set(ranking, kSmallestProbability);
    }
    return set;
}

Ranking recalibrated(const Ranking &ranking, const Recalibration &recalibration) {
    Ranking result = ranking;
    if (recalibration.exponent == 1.0) {
        return result;
    }
    double before = 0.0;
    double after = 0.0;
    for (RankedCandidate &candidate : result.candidates) {
        before += candidate.probability;
        candidate.probability =
            std::pow(std::max(candidate.probability, kSmallestProbability), recalibration.exponent);
        after += candidate.probability;
    }
    for (RankedCandidate &candidate : result.candidates) {
        candidate.probability *= before / after;
    }
    return result;
}

Recalibration fit_recalibration(std::span<const JudgedRanking> judged) {
    return judged.empty() ? Recalibration{}
                          : with_set_limit(judged, std::exp(best_log_exponent(judged)));
}

Recalibration fit_set_limit(std::span<const JudgedRanking> judged) {
    return judged.empty() ? Recalibration{} : with_set_limit(judged, 1.0);
}

} // namespace cospot::matcher

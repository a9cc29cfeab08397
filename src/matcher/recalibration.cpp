#include "matcher/recalibration.h"

#include <algorithm>
#include <cmath>

namespace cospot::matcher {

namespace {

constexpr double kSmallestProbability = 1e-12;
constexpr double kPriorRankings = 20.0;
constexpr double kJustAbove = 1e-9;
constexpr double kFirstStep = 0.4; ///< of the logarithms of the two parameters
constexpr double kLastStep = 0.01;

double score(std::span<const JudgedRanking> judged, const Recalibration &recalibration) {
    double sum = -0.5 * kPriorRankings *
                 (std::pow(std::log(recalibration.exponent), 2) +
                  0.1 * std::pow(std::log(recalibration.unlisted_factor), 2));
    for (const JudgedRanking &one : judged) {
        sum += std::log(probability_of_truth(recalibrated(one.ranking, recalibration), one.truth) +
                        kSmallestProbability);
    }
    return sum;
}

/// Climbs by steps in the logarithm of either parameter, which become smaller.
void climb(std::span<const JudgedRanking> judged, Recalibration &recalibration) {
    double best = score(judged, recalibration);
    for (double step = kFirstStep; step > kLastStep;) {
        bool changed = false;
        for (double *value : {&recalibration.exponent, &recalibration.unlisted_factor}) {
            for (const double factor : {std::exp(step), std::exp(-step)}) {
                const double before = *value;
                *value *= factor;
                const double now = score(judged, recalibration);
                if (now > best) {
                    best = now;
                    changed = true;
                } else {
                    *value = before;
                }
            }
        }
        step = changed ? step : step / 2;
    }
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

double level_before_truth(const Ranking &ranking, std::size_t truth) {
    const double own = probability_of_truth(ranking, truth);
    double level = truth != kUnlisted && ranking.unlisted >= own ? ranking.unlisted : 0.0;
    for (const RankedCandidate &candidate : ranking.candidates) {
        const bool is_before = truth != kUnlisted || candidate.probability > own;
        if (candidate.compound == truth || !is_before) {
            break;
        }
        level += candidate.probability;
    }
    return level;
}

Ranking recalibrated(const Ranking &ranking, const Recalibration &recalibration) {
    Ranking result = ranking;
    const auto raised = [&](double probability) {
        return std::pow(std::max(probability, kSmallestProbability), recalibration.exponent);
    };
    result.unlisted = recalibration.unlisted_factor * raised(ranking.unlisted);
    double sum = result.unlisted;
    for (RankedCandidate &candidate : result.candidates) {
        candidate.probability = raised(candidate.probability);
        sum += candidate.probability;
    }
    result.unlisted /= sum;
    for (RankedCandidate &candidate : result.candidates) {
        candidate.probability /= sum;
    }
    return result;
}

Recalibration fit_recalibration(std::span<const JudgedRanking> judged) {
    Recalibration recalibration;
    if (judged.empty()) {
        return recalibration;
    }
    climb(judged, recalibration);
    std::vector<double> levels;
    for (const JudgedRanking &one : judged) {
        levels.push_back(level_before_truth(recalibrated(one.ranking, recalibration), one.truth));
    }
    std::sort(levels.begin(), levels.end());
    const auto n = static_cast<double>(levels.size());
    const auto rank = static_cast<std::size_t>(std::ceil((n + 1) * kSetCoverage));
    // With few questions no level is sure enough: everything belongs to the set.
    recalibration.set_level =
        rank > levels.size() ? 1.0 : std::clamp(levels[rank - 1] + kJustAbove, 0.5, 1.0);
    return recalibration;
}

} // namespace cospot::matcher

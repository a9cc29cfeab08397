#include "model/matcher/recalibration.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace cospot::matcher {

namespace {

constexpr double kSmallestProbability = 1e-12;
constexpr double kPriorRankings = 20.0;
constexpr double kFirstStep = 0.4; ///< of the logarithm of a parameter
constexpr double kLastStep = 0.01;
constexpr std::size_t kFewestForOwnLimit = 19; ///< one in n + 1 may be left out

/// Where the score is highest, from 0 by steps that become smaller; held back by the prior.
template <class Score> double best_position(const Score &score) {
    const auto held_back = [&](double position) {
        return score(position) - 0.5 * kPriorRankings * position * position;
    };
    double position = 0.0;
    double best = held_back(position);
    for (double step = kFirstStep; std::abs(step) > kLastStep;) {
        const double now = held_back(position + step);
        if (now > best) {
            best = now;
            position += step;
        } else {
            step *= step > 0.0 ? -1.0 : -0.5;
        }
    }
    return position;
}

double log_probability(double probability) {
    return std::log(std::max(probability, kSmallestProbability));
}

/// The candidates of the truth's basis.
struct AmongItsLike {
    std::vector<double> logs; ///< of their probabilities, less that of the likeliest
    double truth = 0.0;       ///< the same of the truth
};

std::vector<AmongItsLike> of_basis(std::span<const JudgedRanking> judged, Basis basis) {
    std::vector<AmongItsLike> result;
    for (const JudgedRanking &one : judged) {
        if (!is_of_basis(one, basis) || probability_of_truth(one.ranking, one.truth) <= 0.0) {
            continue;
        }
        AmongItsLike &added = result.emplace_back();
        double most = 0.0;
        for (const RankedCandidate &candidate : one.ranking.candidates) {
            if (candidate.basis == basis) {
                most = added.logs.empty() ? log_probability(candidate.probability) : most;
                added.logs.push_back(log_probability(candidate.probability) - most);
                added.truth = candidate.compound == one.truth ? added.logs.back() : added.truth;
            }
        }
    }
    return result;
}

double best_exponent(std::span<const JudgedRanking> judged, Basis basis) {
    const std::vector<AmongItsLike> questions = of_basis(judged, basis);
    if (questions.size() < kFewestOfAKind) {
        return 1.0;
    }
    return std::exp(best_position([&](double log_exponent) {
        const double exponent = std::exp(log_exponent);
        double sum = 0.0;
        for (const AmongItsLike &one : questions) {
            double all = 0.0;
            for (const double log : one.logs) {
                all += std::exp(exponent * log);
            }
            sum += exponent * one.truth - std::log(all);
        }
        return sum;
    }));
}

double with_offset(double unlisted, double offset) {
    const double odds = unlisted * std::exp(offset);
    return odds / (odds + 1.0 - unlisted);
}

double best_offset(std::span<const JudgedRanking> judged, double prior_unlisted) {
    const auto absent = static_cast<std::size_t>(std::count_if(
        judged.begin(), judged.end(), [](const auto &one) { return one.truth == kUnlisted; }));
    const std::size_t present = judged.size() - absent;
    if (std::min(absent, present) < kFewestOfAKind) {
        return 0.0;
    }
    const auto all = static_cast<double>(judged.size());
    const double of_absent = prior_unlisted * all / static_cast<double>(absent);
    const double of_present = (1.0 - prior_unlisted) * all / static_cast<double>(present);
    return best_position([&](double offset) {
        double sum = 0.0;
        for (const JudgedRanking &one : judged) {
            const double unlisted = with_offset(one.ranking.unlisted, offset);
            sum += one.truth == kUnlisted ? of_absent * log_probability(unlisted)
                                          : of_present * log_probability(1.0 - unlisted);
        }
        return sum;
    });
}

/// The largest limit that leaves out no more of these probabilities of truths than is promised;
/// with too few of them everything belongs to the set.
double limit_of(std::vector<double> of_truth) {
    if (of_truth.empty()) {
        return 0.0;
    }
    std::sort(of_truth.begin(), of_truth.end());
    const auto n = static_cast<double>(of_truth.size());
    const auto rank = static_cast<std::size_t>(std::floor((n + 1) * (1.0 - kSetCoverage)));
    return rank == 0 ? kSmallestProbability
                     : std::clamp(of_truth[rank - 1], kSmallestProbability, kWorthNaming);
}

/// Positions of the first candidates that gather the coverage together with `unlisted`.
std::size_t gathered(const Ranking &ranking, bool &unlisted) {
    const CandidateSet set = candidate_set(ranking, kSetCoverage);
    unlisted = set.unlisted;
    return set.candidates;
}

} // namespace

const BasisCorrection &correction_of(const Recalibration &recalibration, Basis basis) {
    static const BasisCorrection none;
    switch (basis) {
    case Basis::measured:
        return recalibration.measured;
    case Basis::transferred:
        return recalibration.transferred;
    case Basis::same_run:
    case Basis::predicted:
        break;
    }
    return none;
}

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

ChosenSet chosen_set(const Ranking &ranking, const Recalibration &recalibration) {
    bool unlisted = false;
    const std::size_t first = gathered(ranking, unlisted);
    ChosenSet set;
    for (std::size_t i = 0; i < ranking.candidates.size(); ++i) {
        const RankedCandidate &candidate = ranking.candidates[i];
        const double least = correction_of(recalibration, candidate.basis).least_in_set;
        const bool is_likeliest = i == 0 && candidate.probability > ranking.unlisted;
        if (is_likeliest || (least > 0.0 ? candidate.probability >= least : i < first)) {
            set.candidates.push_back(i);
        }
    }
    const double least = recalibration.least_unlisted_in_set;
    const bool is_likeliest =
        ranking.candidates.empty() || ranking.unlisted >= ranking.candidates.front().probability;
    set.unlisted = is_likeliest || (least > 0.0 ? ranking.unlisted >= least : unlisted);
    return set;
}

Ranking recalibrated(const Ranking &ranking, const Recalibration &recalibration) {
    Ranking result = ranking;
    std::array<double, 4> before{}; // by basis
    std::array<double, 4> after{};
    for (RankedCandidate &candidate : result.candidates) {
        const double exponent = correction_of(recalibration, candidate.basis).exponent;
        const auto basis = static_cast<std::size_t>(candidate.basis);
        before.at(basis) += candidate.probability;
        if (exponent != 1.0) {
            candidate.probability =
                std::pow(std::max(candidate.probability, kSmallestProbability), exponent);
        }
        after.at(basis) += candidate.probability;
    }
    const double listed = 1.0 - ranking.unlisted;
    if (recalibration.unlisted_offset != 0.0 && listed > 0.0) {
        result.unlisted = with_offset(ranking.unlisted, recalibration.unlisted_offset);
    }
    const double rest = listed > 0.0 ? (1.0 - result.unlisted) / listed : 1.0;
    for (RankedCandidate &candidate : result.candidates) {
        const auto basis = static_cast<std::size_t>(candidate.basis);
        if (after.at(basis) > 0.0) {
            candidate.probability *= rest * before.at(basis) / after.at(basis);
        }
    }
    sort_by_probability(result);
    return result;
}

Recalibration fit_odds(std::span<const JudgedRanking> judged, double prior_unlisted) {
    Recalibration recalibration;
    recalibration.measured.exponent = best_exponent(judged, Basis::measured);
    recalibration.transferred.exponent = best_exponent(judged, Basis::transferred);
    recalibration.unlisted_offset = best_offset(judged, prior_unlisted);
    return recalibration;
}

Recalibration with_set_limits(Recalibration recalibration, std::span<const JudgedRanking> judged) {
    std::vector<double> measured;
    std::vector<double> transferred;
    std::vector<double> listed; // of any basis
    std::vector<double> unlisted;
    for (const JudgedRanking &one : judged) {
        const double stated =
            probability_of_truth(recalibrated(one.ranking, recalibration), one.truth);
        if (one.truth == kUnlisted) {
            unlisted.push_back(stated);
            continue;
        }
        listed.push_back(stated);
        if (one.basis == Basis::transferred) {
            transferred.push_back(stated);
        } else if (one.basis == Basis::measured) {
            measured.push_back(stated);
        }
    }
    const auto own = [&](const std::vector<double> &of_basis) {
        if (of_basis.size() >= kFewestForOwnLimit || of_basis.empty()) {
            return limit_of(of_basis.empty() ? listed : of_basis);
        }
        return std::max(
            kSmallestProbability,
            std::min(limit_of(listed), *std::min_element(of_basis.begin(), of_basis.end())));
    };
    recalibration.measured.least_in_set = own(measured);
    recalibration.transferred.least_in_set = own(transferred);
    recalibration.least_unlisted_in_set = limit_of(std::move(unlisted));
    return recalibration;
}

} // namespace cospot::matcher

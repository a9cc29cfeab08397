#include "prove/proof.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace cospot {

namespace {

using matcher::Basis;
using matcher::JudgedRanking;
using matcher::Recalibration;

using Judged = std::vector<JudgedRanking>;

constexpr std::array<Basis, 2> kBases{Basis::measured, Basis::transferred};

/// The questions of one part, and all others.
struct Fold {
    Judged asked;
    Judged others;
};

std::vector<Fold> folds_of(std::span<const JudgedQuestion> questions) {
    std::vector<Fold> folds;
    for (std::size_t part = 0; part < kProofParts; ++part) {
        Fold fold;
        for (const JudgedQuestion &question : questions) {
            (question.part == part ? fold.asked : fold.others).push_back(question.judged);
        }
        if (!fold.asked.empty()) {
            folds.push_back(std::move(fold));
        }
    }
    return folds;
}

/// What is kept of a correction.
struct Kept {
    bool measured = true;
    bool transferred = true;
    bool unlisted = true;

    [[nodiscard]] bool any() const { return measured || transferred || unlisted; }
};

Recalibration kept_of(const Recalibration &tried, Kept kept) {
    Recalibration result;
    result.measured.exponent = kept.measured ? tried.measured.exponent : 1.0;
    result.transferred.exponent = kept.transferred ? tried.transferred.exponent : 1.0;
    result.unlisted_offset = kept.unlisted ? tried.unlisted_offset : 0.0;
    return result;
}

/// How much a question counts, so that absent compounds have the share that was believed: their
/// number is not to be learned.
struct Weights {
    double absent = 1.0;
    double present = 1.0;
};

Weights weights_of(const std::vector<Fold> &folds) {
    double absent = 0.0;
    double all = 0.0;
    for (const Fold &fold : folds) {
        for (const JudgedRanking &one : fold.asked) {
            absent += one.truth == matcher::kUnlisted ? 1.0 : 0.0;
            all += 1.0;
        }
    }
    const double believed = matcher::Prior{}.unlisted;
    return absent > 0.0 && absent < all
               ? Weights{believed * all / absent, (1.0 - believed) * all / (all - absent)}
               : Weights{};
}

/// By how much a correction makes the logarithm of the truth's probability larger.
double log_gain(const JudgedRanking &judged, const Recalibration &recalibration) {
    const auto log_of_truth = [&](const matcher::Ranking &ranking) {
        return std::log(std::max(matcher::probability_of_truth(ranking, judged.truth), 1e-6));
    };
    return log_of_truth(matcher::recalibrated(judged.ranking, recalibration)) -
           log_of_truth(judged.ranking);
}

/// What of the correction makes truths clearly likelier in parts that it was not learned from: each
/// by itself, as what it corrects does not touch the rest. By more than a standard error (the rule
/// of breiman1984, from memory); the offset by two, since it costs every compound that the library
/// holds what it gives to those that are absent, whose share is only believed.
Kept worth_keeping(const std::vector<Fold> &folds, const std::vector<Recalibration> &tried) {
    const Weights weights = weights_of(folds);
    const auto gains = [&](Kept only, double standard_errors) {
        double gain = 0.0;
        double squares = 0.0;
        for (std::size_t i = 0; i < folds.size(); ++i) {
            const Recalibration alone = kept_of(tried[i], only);
            for (const JudgedRanking &one : folds[i].asked) {
                const double own =
                    log_gain(one, alone) *
                    (one.truth == matcher::kUnlisted ? weights.absent : weights.present);
                gain += own;
                squares += own * own;
            }
        }
        return gain > standard_errors * std::sqrt(squares);
    };
    return {gains({true, false, false}, 1.0), gains({false, true, false}, 1.0),
            gains({false, false, true}, 2.0)};
}

/// Each part as the correction learned from the others states it.
struct Restated {
    Judged judged;
    std::vector<Recalibration> recalibrations; ///< of each
};

Restated restated(const std::vector<Fold> &folds, const std::vector<Recalibration> &learned) {
    Restated result;
    for (std::size_t i = 0; i < folds.size(); ++i) {
        for (const JudgedRanking &one : folds[i].asked) {
            result.judged.push_back(one);
            result.judged.back().ranking = matcher::recalibrated(one.ranking, learned[i]);
            result.recalibrations.push_back(learned[i]);
        }
    }
    return result;
}

Reliability reliability_of(const Restated &restated, std::optional<Basis> basis = std::nullopt) {
    Tally tally(basis);
    for (std::size_t i = 0; i < restated.judged.size(); ++i) {
        tally.add(restated.judged[i], restated.recalibrations[i]);
    }
    return tally.result();
}

bool is_first(const JudgedRanking &judged) {
    return !judged.ranking.candidates.empty() &&
           judged.ranking.candidates.front().compound == judged.truth;
}

std::vector<BasisResult> by_basis(const Restated &before, const Restated &after, Kept kept) {
    std::vector<BasisResult> results;
    for (const Basis basis : kBases) {
        BasisResult result;
        result.basis = basis;
        double right = 0.0;
        for (const JudgedRanking &one : before.judged) {
            if (matcher::is_of_basis(one, basis)) {
                ++result.questions;
                right += is_first(one) ? 1.0 : 0.0;
            }
        }
        if (result.questions > 0) {
            result.first_right = right / static_cast<double>(result.questions);
            result.as_stated = reliability_of(before, basis);
            result.corrected = reliability_of(after, basis);
            result.is_corrected = basis == Basis::measured ? kept.measured : kept.transferred;
            results.push_back(result);
        }
    }
    return results;
}

AbsentResult absent_compounds(const Restated &after, Kept kept) {
    AbsentResult result;
    result.is_corrected = kept.unlisted;
    double present = 0.0;
    for (const JudgedRanking &one : after.judged) {
        const double unlisted = one.ranking.unlisted;
        const double first =
            one.ranking.candidates.empty() ? 0.0 : one.ranking.candidates.front().probability;
        if (one.truth == matcher::kUnlisted) {
            ++result.questions;
            result.claimed += first >= kSureOfCompound ? 1 : 0;
            result.likeliest += unlisted >= first ? 1.0 : 0.0;
            result.unlisted += unlisted;
        } else {
            present += 1.0;
            result.of_present += unlisted;
        }
    }
    const double absent = std::max(1.0, static_cast<double>(result.questions));
    result.likeliest /= absent;
    result.unlisted /= absent;
    result.of_present /= std::max(1.0, present);
    return result;
}

} // namespace

ProofResult prove(std::span<const JudgedQuestion> questions) {
    const std::vector<Fold> folds = folds_of(questions);
    std::vector<Recalibration> none(folds.size());
    std::vector<Recalibration> tried;
    for (const Fold &fold : folds) {
        tried.push_back(matcher::fit_odds(fold.others));
    }
    const Kept kept = worth_keeping(folds, tried);
    std::vector<Recalibration> learned;
    for (std::size_t i = 0; i < folds.size(); ++i) {
        learned.push_back(matcher::with_set_limits(kept_of(tried[i], kept), folds[i].others));
    }
    const Restated before = restated(folds, none);
    const Restated after = restated(folds, learned);
    ProofResult result;
    result.questions = questions.size();
    double right = 0.0;
    for (const JudgedRanking &one : before.judged) {
        result.absent += one.truth == matcher::kUnlisted ? 1 : 0;
        right += is_first(one) ? 1.0 : 0.0;
    }
    const std::size_t present = result.questions - result.absent;
    result.first_right = present > 0 ? right / static_cast<double>(present) : 0.0;
    result.as_stated = reliability_of(before);
    result.corrected = reliability_of(after);
    const Reliability all_tried = reliability_of(restated(folds, tried));
    result.tried_calibration_error = all_tried.calibration_error;
    result.tried_log_loss = all_tried.log_loss;
    result.is_corrected = kept.any();
    result.by_basis = by_basis(before, after, kept);
    result.absent_compounds = absent_compounds(after, kept);
    Judged all = before.judged;
    result.recalibration = matcher::with_set_limits(kept_of(matcher::fit_odds(all), kept), all);
    return result;
}

bool is_any_too_sure(const ProofResult &proof) {
    return is_too_sure(verdict(proof.corrected)) ||
           std::any_of(proof.by_basis.begin(), proof.by_basis.end(),
                       [](const BasisResult &one) { return is_too_sure(verdict(one.corrected)); });
}

} // namespace cospot

#include "prove/proof.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <utility>

namespace cospot {

namespace {

using matcher::Basis;
using matcher::JudgedRanking;
using matcher::Recalibration;

constexpr std::array<Basis, 2> kBases{Basis::measured, Basis::transferred};

/// The questions in the order of parts.
struct Questions {
    std::vector<JudgedRanking> judged;
    std::vector<std::size_t> counts; ///< of each part that has any
};

Questions by_part(std::vector<JudgedQuestion> questions) {
    std::stable_sort(questions.begin(), questions.end(),
                     [](const auto &a, const auto &b) { return a.part < b.part; });
    Questions result;
    for (std::size_t i = 0; i < questions.size(); ++i) {
        if (i == 0 || questions[i].part != questions[i - 1].part) {
            result.counts.push_back(0);
        }
        ++result.counts.back();
        result.judged.push_back(std::move(questions[i].judged));
    }
    return result;
}

/// What `learn(i, others)` learns for each part from the questions of all others. These are many:
/// they are moved instead of copied, and stand as before in the end.
template <class Learn>
std::vector<Recalibration> learned_from_others(Questions &questions, const Learn &learn) {
    std::vector<JudgedRanking> &judged = questions.judged;
    std::vector<Recalibration> learned;
    for (std::size_t i = 0; i < questions.counts.size(); ++i) {
        const std::size_t own = questions.counts[i];
        std::rotate(judged.begin(), judged.begin() + static_cast<std::ptrdiff_t>(own),
                    judged.end());
        learned.push_back(learn(i, std::span(judged).first(judged.size() - own)));
    }
    return learned;
}

/// Calls `visit(question, i)` for each question of each part i.
template <class Visit> void for_each_question(const Questions &questions, const Visit &visit) {
    std::size_t next = 0;
    for (std::size_t i = 0; i < questions.counts.size(); ++i) {
        for (const std::size_t end = next + questions.counts[i]; next < end; ++next) {
            visit(questions.judged[next], i);
        }
    }
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

Weights weights_of(const std::vector<JudgedRanking> &judged) {
    const auto all = static_cast<double>(judged.size());
    const auto absent =
        static_cast<double>(std::count_if(judged.begin(), judged.end(), [](const auto &one) {
            return one.truth == matcher::kUnlisted;
        }));
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
Kept worth_keeping(const Questions &questions, const std::vector<Recalibration> &tried) {
    const Weights weights = weights_of(questions.judged);
    const auto gains = [&](Kept only, double standard_errors) {
        double gain = 0.0;
        double squares = 0.0;
        for_each_question(questions, [&](const JudgedRanking &one, std::size_t part) {
            const double own = log_gain(one, kept_of(tried[part], only)) *
                               (one.truth == matcher::kUnlisted ? weights.absent : weights.present);
            gain += own;
            squares += own * own;
        });
        return gain > standard_errors * std::sqrt(squares);
    };
    return {gains({true, false, false}, 1.0), gains({false, true, false}, 1.0),
            gains({false, false, true}, 2.0)};
}

bool is_first(const JudgedRanking &judged) {
    return !judged.ranking.candidates.empty() &&
           judged.ranking.candidates.front().compound == judged.truth;
}

/// How well all was stated, and compounds of each basis.
struct Reliabilities {
    Reliability all;
    std::array<Reliability, kBases.size()> of_basis;
};

/// Adds up statements, over all and by basis.
class Tallies {
public:
    void add(const JudgedRanking &judged, const Recalibration &recalibration) {
        all_.add(judged, recalibration);
        for (Tally &tally : of_basis_) {
            tally.add(judged, recalibration);
        }
    }

    [[nodiscard]] Reliabilities result() const {
        Reliabilities result{all_.result(), {}};
        for (std::size_t b = 0; b < kBases.size(); ++b) {
            result.of_basis.at(b) = of_basis_.at(b).result();
        }
        return result;
    }

private:
    Tally all_;
    std::array<Tally, kBases.size()> of_basis_{Tally(kBases[0]), Tally(kBases[1])};
};

std::vector<BasisResult> by_basis(const Questions &questions, const Reliabilities &before,
                                  const Reliabilities &after, Kept kept) {
    std::vector<BasisResult> results;
    for (std::size_t b = 0; b < kBases.size(); ++b) {
        BasisResult result;
        result.basis = kBases.at(b);
        double right = 0.0;
        for (const JudgedRanking &one : questions.judged) {
            if (matcher::is_of_basis(one, result.basis)) {
                ++result.questions;
                right += is_first(one) ? 1.0 : 0.0;
            }
        }
        if (result.questions > 0) {
            result.first_right = right / static_cast<double>(result.questions);
            result.as_stated = before.of_basis.at(b);
            result.corrected = after.of_basis.at(b);
            result.is_corrected =
                result.basis == Basis::measured ? kept.measured : kept.transferred;
            results.push_back(result);
        }
    }
    return results;
}

/// Adds up how absent compounds were answered.
class AbsentTally {
public:
    void add(const JudgedRanking &judged) {
        const double unlisted = judged.ranking.unlisted;
        const double first =
            judged.ranking.candidates.empty() ? 0.0 : judged.ranking.candidates.front().probability;
        if (judged.truth == matcher::kUnlisted) {
            ++sums_.questions;
            sums_.claimed += first >= kSureOfCompound ? 1 : 0;
            sums_.likeliest += unlisted >= first ? 1.0 : 0.0;
            sums_.unlisted += unlisted;
        } else {
            present_ += 1.0;
            sums_.of_present += unlisted;
        }
    }

    [[nodiscard]] AbsentResult result(Kept kept) const {
        AbsentResult result = sums_;
        result.is_corrected = kept.unlisted;
        const double absent = std::max(1.0, static_cast<double>(result.questions));
        result.likeliest /= absent;
        result.unlisted /= absent;
        result.of_present /= std::max(1.0, present_);
        return result;
    }

private:
    AbsentResult sums_; ///< not yet shares and means
    double present_ = 0.0;
};

/// Restates each question by what the other parts teach.
template <class Visit>
void for_each_restated(const Questions &questions, const std::vector<Recalibration> &learned,
                       const Visit &visit) {
    for_each_question(questions, [&](const JudgedRanking &one, std::size_t part) {
        visit(
            JudgedRanking{matcher::recalibrated(one.ranking, learned[part]), one.truth, one.basis},
            learned[part]);
    });
}

Reliabilities reliability_of(const Questions &questions,
                             const std::vector<Recalibration> &learned) {
    Tallies tallies;
    for_each_restated(questions, learned, [&](const JudgedRanking &one, const Recalibration &by) {
        tallies.add(one, by);
    });
    return tallies.result();
}

} // namespace

ProofResult prove(std::vector<JudgedQuestion> asked) {
    Questions questions = by_part(std::move(asked));
    const auto tried = learned_from_others(
        questions, [](std::size_t /*part*/, auto others) { return matcher::fit_odds(others); });
    const Kept kept = worth_keeping(questions, tried);
    const auto learned = learned_from_others(questions, [&](std::size_t part, auto others) {
        return matcher::with_set_limits(kept_of(tried[part], kept), others);
    });
    ProofResult result;
    result.questions = questions.judged.size();
    double right = 0.0;
    for (const JudgedRanking &one : questions.judged) {
        result.absent += one.truth == matcher::kUnlisted ? 1 : 0;
        right += is_first(one) ? 1.0 : 0.0;
    }
    const std::size_t present = result.questions - result.absent;
    result.first_right = present > 0 ? right / static_cast<double>(present) : 0.0;
    const Reliabilities before =
        reliability_of(questions, std::vector<Recalibration>(tried.size()));
    const Reliabilities all_tried = reliability_of(questions, tried);
    result.tried_calibration_error = all_tried.all.calibration_error;
    result.tried_log_loss = all_tried.all.log_loss;
    Tallies after;
    AbsentTally absent;
    for_each_restated(questions, learned, [&](const JudgedRanking &one, const Recalibration &by) {
        after.add(one, by);
        absent.add(one);
    });
    const Reliabilities corrected = after.result();
    result.as_stated = before.all;
    result.corrected = corrected.all;
    result.is_corrected = kept.any();
    result.by_basis = by_basis(questions, before, corrected, kept);
    result.absent_compounds = absent.result(kept);
    result.recalibration = matcher::with_set_limits(
        kept_of(matcher::fit_odds(questions.judged), kept), questions.judged);
    return result;
}

bool is_any_too_sure(const ProofResult &proof) {
    return is_too_sure(verdict(proof.corrected)) ||
           std::any_of(proof.by_basis.begin(), proof.by_basis.end(),
                       [](const BasisResult &one) { return is_too_sure(verdict(one.corrected)); });
}

} // namespace cospot

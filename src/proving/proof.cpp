#include "proving/proof.h"

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

using matcher::JudgedRanking;
using matcher::Recalibration;

/// Adds up statements.
class Tally {
public:
    void add(const JudgedRanking &judged, const Recalibration &recalibration) {
        const matcher::Ranking &ranking = judged.ranking;
        state(ranking.unlisted, judged.truth == matcher::kUnlisted);
        for (const matcher::RankedCandidate &candidate : ranking.candidates) {
            state(candidate.probability, candidate.compound == judged.truth);
        }
        log_loss_ -= std::log(std::max(matcher::probability_of_truth(ranking, judged.truth), 1e-6));
        const matcher::CandidateSet set = matcher::candidate_set(ranking, recalibration);
        const auto end = ranking.candidates.begin() + static_cast<std::ptrdiff_t>(set.candidates);
        const bool holds = judged.truth == matcher::kUnlisted
                               ? set.unlisted
                               : std::any_of(ranking.candidates.begin(), end,
                                             [&](const matcher::RankedCandidate &candidate) {
                                                 return candidate.compound == judged.truth;
                                             });
        covered_ += holds ? 1.0 : 0.0;
        length_ += static_cast<double>(set.candidates);
        rankings_ += 1.0;
    }

    [[nodiscard]] Reliability result() const {
        Reliability reliability;
        double statements = 0.0;
        for (std::size_t b = 0; b < bins_.size(); ++b) {
            const Bin &bin = bins_[b];
            if (bin.count > 0.0) {
                reliability.bins[b] = {bin.stated / bin.count, bin.right / bin.count,
                                       static_cast<std::size_t>(bin.count)};
                reliability.calibration_error += std::abs(bin.stated - bin.right);
                statements += bin.count;
            }
        }
        reliability.calibration_error /= std::max(statements, 1.0);
        reliability.log_loss = log_loss_ / rankings_;
        reliability.set_coverage = covered_ / rankings_;
        reliability.set_length = length_ / rankings_;
        return reliability;
    }

private:
    struct Bin {
        double stated = 0.0;
        double right = 0.0;
        double count = 0.0;
    };

    void state(double probability, bool is_right) {
        if (probability >= kSmallestStatement) {
            Bin &bin =
                bins_.at(std::min<std::size_t>(9, static_cast<std::size_t>(probability * 10)));
            bin.stated += probability;
            bin.right += is_right ? 1.0 : 0.0;
            bin.count += 1.0;
        }
    }

    std::array<Bin, 10> bins_{};
    double log_loss_ = 0.0;
    double covered_ = 0.0;
    double length_ = 0.0;
    double rankings_ = 0.0;
};

std::vector<JudgedRanking> of_parts(std::span<const JudgedQuestion> questions, std::size_t part,
                                    bool inside) {
    std::vector<JudgedRanking> chosen;
    for (const JudgedQuestion &question : questions) {
        if ((question.part == part) == inside) {
            chosen.push_back(question.judged);
        }
    }
    return chosen;
}

using Fit = Recalibration (*)(std::span<const JudgedRanking>);

/// Each part with what `fit` learns from the other parts.
Reliability held_out(std::span<const JudgedQuestion> questions, Fit fit) {
    Tally tally;
    for (std::size_t part = 0; part < kProofParts; ++part) {
        const Recalibration learned = fit(of_parts(questions, part, false));
        for (const JudgedRanking &judged : of_parts(questions, part, true)) {
            tally.add({matcher::recalibrated(judged.ranking, learned), judged.truth}, learned);
        }
    }
    return tally.result();
}

} // namespace

ProofResult prove(std::span<const JudgedQuestion> questions) {
    ProofResult result;
    result.questions = questions.size();
    std::vector<JudgedRanking> all;
    std::size_t right = 0;
    for (const JudgedQuestion &question : questions) {
        const JudgedRanking &judged = question.judged;
        result.absent += judged.truth == matcher::kUnlisted ? 1 : 0;
        right += !judged.ranking.candidates.empty() &&
                         judged.ranking.candidates.front().compound == judged.truth
                     ? 1
                     : 0;
        all.push_back(judged);
    }
    // In the same order as below, so that equal answers give equal sums.
    result.as_stated =
        held_out(questions, [](std::span<const JudgedRanking>) { return Recalibration{}; });
    const std::size_t present = result.questions - result.absent;
    result.first_right =
        present > 0 ? static_cast<double>(right) / static_cast<double>(present) : 0.0;
    const Reliability tried = held_out(questions, matcher::fit_recalibration);
    result.tried_calibration_error = tried.calibration_error;
    result.tried_log_loss = tried.log_loss;
    result.is_corrected = tried.log_loss < result.as_stated.log_loss;
    result.corrected = result.is_corrected ? tried : held_out(questions, matcher::fit_set_limit);
    result.recalibration =
        result.is_corrected ? matcher::fit_recalibration(all) : matcher::fit_set_limit(all);
    return result;
}

ReliabilityBin verdict(const Reliability &reliability) {
    ReliabilityBin sum;
    for (std::size_t b = 8; b < reliability.bins.size(); ++b) {
        const ReliabilityBin &bin = reliability.bins[b];
        const auto count = static_cast<double>(bin.count);
        sum.stated += count * bin.stated;
        sum.right += count * bin.right;
        sum.count += bin.count;
    }
    const double count = std::max(1.0, static_cast<double>(sum.count));
    return {sum.stated / count, sum.right / count, sum.count};
}

bool is_too_sure(const ReliabilityBin &verdict) {
    if (verdict.count < kFewStatements) {
        return false;
    }
    constexpr double tolerated = 0.05;
    const double error =
        std::sqrt(verdict.stated * (1.0 - verdict.stated) / static_cast<double>(verdict.count));
    return verdict.stated - verdict.right > std::max(tolerated, 2.0 * error);
}

} // namespace cospot

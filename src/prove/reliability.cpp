#include "prove/reliability.h"

#include <algorithm>
#include <cmath>

namespace cospot {

void Tally::add(const matcher::JudgedRanking &judged, const matcher::Recalibration &recalibration) {
    const matcher::Ranking &ranking = judged.ranking;
    if (!basis_) {
        state(ranking.unlisted, judged.truth == matcher::kUnlisted);
    }
    for (const matcher::RankedCandidate &candidate : ranking.candidates) {
        if (!basis_ || candidate.basis == *basis_) {
            state(candidate.probability, candidate.compound == judged.truth);
        }
    }
    if (basis_ && !matcher::is_of_basis(judged, *basis_)) {
        return;
    }
    log_loss_ -= std::log(std::max(matcher::probability_of_truth(ranking, judged.truth), 1e-6));
    const matcher::ChosenSet set = matcher::chosen_set(ranking, recalibration);
    const bool holds =
        judged.truth == matcher::kUnlisted
            ? set.unlisted
            : std::any_of(set.candidates.begin(), set.candidates.end(), [&](std::size_t position) {
                  return ranking.candidates[position].compound == judged.truth;
              });
    covered_ += holds ? 1.0 : 0.0;
    length_ += static_cast<double>(set.candidates.size());
    rankings_ += 1.0;
}

Reliability Tally::result() const {
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
    if (rankings_ > 0.0) {
        reliability.log_loss = log_loss_ / rankings_;
        reliability.set_coverage = covered_ / rankings_;
        reliability.set_length = length_ / rankings_;
    }
    return reliability;
}

void Tally::state(double probability, bool is_right) {
    if (probability >= kSmallestStatement) {
        Bin &bin = bins_.at(std::min<std::size_t>(9, static_cast<std::size_t>(probability * 10)));
        bin.stated += probability;
        bin.right += is_right ? 1.0 : 0.0;
        bin.count += 1.0;
    }
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

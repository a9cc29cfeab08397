#pragma once

#include "model/matcher/recalibration.h"

#include <array>
#include <cstddef>
#include <optional>

namespace cospot {

/// Statements of about the same stated probability.
struct ReliabilityBin {
    double stated = 0.0; ///< mean
    double right = 0.0;  ///< share
    std::size_t count = 0;
};

/// Statements less probable than this are not counted: they are many, and right to be small.
inline constexpr double kSmallestStatement = 0.01;

/// How well probabilities were stated, over candidates and `unlisted` together or over candidates
/// of one basis.
struct Reliability {
    std::array<ReliabilityBin, 10> bins{}; ///< of equal width
    double calibration_error = 0.0;        ///< mean distance of stated and right, by statements
    double log_loss = 0.0;                 ///< mean of -ln(probability of the truth)
    double set_coverage = 0.0;             ///< share of candidate sets that hold the truth
    double set_length = 0.0;               ///< mean number of compounds in the sets
};

/// Adds up statements.
class Tally {
public:
    /// Of candidates of one basis and of questions whose truth has it; without one, of all
    /// candidates and `unlisted`.
    explicit Tally(std::optional<matcher::Basis> basis = std::nullopt) : basis_(basis) {}

    /// `judged` as the recalibration states it.
    void add(const matcher::JudgedRanking &judged, const matcher::Recalibration &recalibration);

    [[nodiscard]] Reliability result() const;

private:
    struct Bin {
        double stated = 0.0;
        double right = 0.0;
        double count = 0.0;
    };

    void state(double probability, bool is_right);

    std::optional<matcher::Basis> basis_;
    std::array<Bin, 10> bins_{};
    double log_loss_ = 0.0;
    double covered_ = 0.0;
    double length_ = 0.0;
    double rankings_ = 0.0;
};

/// Of what the library called at least 80 % probable: mean stated, share right, how often.
[[nodiscard]] ReliabilityBin verdict(const Reliability &reliability);

/// Below this a share says little.
inline constexpr std::size_t kFewStatements = 20;

/// Whether the statements of a verdict were right clearly less often than they said: by more than
/// 0.05, and by more than twice the standard error of the share. False of few statements.
[[nodiscard]] bool is_too_sure(const ReliabilityBin &verdict);

} // namespace cospot

#pragma once

#include "matcher/recalibration.h"
#include "proving/judged_library.h"

#include <array>
#include <cstddef>
#include <span>
#include <vector>

namespace cospot {

/// Statements of about the same stated probability.
struct ReliabilityBin {
    double stated = 0.0; ///< mean
    double right = 0.0;  ///< share
    std::size_t count = 0;
};

/// Statements less probable than this are not counted: they are many, and right to be small.
inline constexpr double kSmallestStatement = 0.01;

/// How well probabilities were stated, over candidates and `unlisted` together.
struct Reliability {
    std::array<ReliabilityBin, 10> bins{}; ///< of equal width
    double calibration_error = 0.0;        ///< mean distance of stated and right, by statements
    double log_loss = 0.0;                 ///< mean of -ln(probability of the truth)
    double set_coverage = 0.0;             ///< share of candidate sets that hold the truth
    double set_length = 0.0;               ///< mean number of compounds in the sets
};

/// What the questions say about the library.
struct ProofResult {
    std::size_t questions = 0;
    std::size_t absent = 0;   ///< questions whose truth is `unlisted`
    double first_right = 0.0; ///< share of the others whose first candidate is right
    Reliability as_stated;
    /// Of the correction that was tried: each part with what the other parts teach.
    double tried_calibration_error = 0.0;
    double tried_log_loss = 0.0;
    /// Whether the correction that was tried has the smaller log loss, and is kept.
    bool is_corrected = false;
    /// As stated from now on, each part with what the other parts teach: with the correction, or
    /// only with the limit of candidate sets.
    Reliability corrected;
    matcher::Recalibration recalibration; ///< that which is kept, learned from all parts
};

/// `questions` must not be empty.
[[nodiscard]] ProofResult prove(std::span<const JudgedQuestion> questions);

/// Of what the library called at least 80 % probable: mean stated, share right, how often.
[[nodiscard]] ReliabilityBin verdict(const Reliability &reliability);

/// Below this a share says little.
inline constexpr std::size_t kFewStatements = 20;

/// Whether the statements of a verdict were right clearly less often than they said: by more than
/// 0.05, and by more than twice the standard error of the share. False of few statements.
[[nodiscard]] bool is_too_sure(const ReliabilityBin &verdict);

} // namespace cospot

#pragma once

#include "model/matcher/recalibration.h"
#include "prove/asking.h"
#include "prove/judged_library.h"
#include "prove/reliability.h"

#include <cstddef>
#include <vector>

namespace cospot {

/// What is known of the candidates of one basis, and of questions whose truth has it.
struct BasisResult {
    matcher::Basis basis = matcher::Basis::measured;
    std::size_t questions = 0;
    double first_right = 0.0; ///< share whose first candidate is right
    Reliability as_stated;
    Reliability corrected;
    bool is_corrected = false; ///< by an exponent
};

/// How compounds that the library lacks were answered, as stated from now on.
struct AbsentResult {
    std::size_t questions = 0;
    std::size_t claimed = 0;   ///< a listed compound had `kSureOfCompound` or more
    double likeliest = 0.0;    ///< share for which `unlisted` was the likeliest answer
    double unlisted = 0.0;     ///< mean probability of unlisted
    double of_present = 0.0;   ///< the same of compounds that the library holds
    bool is_corrected = false; ///< by the offset
};

/// A listed compound this probable counts as claimed.
inline constexpr double kSureOfCompound = 0.8;

/// What the questions say about the library.
struct ProofResult {
    std::size_t questions = 0;
    std::size_t absent = 0;   ///< questions whose truth is `unlisted`
    double first_right = 0.0; ///< share of the others whose first candidate is right
    Reliability as_stated;
    /// Of the whole correction that was tried: each part with what the other parts teach.
    double tried_calibration_error = 0.0;
    double tried_log_loss = 0.0;
    /// Whether anything of it has the smaller log loss, and is kept.
    bool is_corrected = false;
    /// As stated from now on, each part with what the other parts teach: with what is kept of the
    /// correction, and the limits of candidate sets.
    Reliability corrected;
    std::vector<BasisResult> by_basis; ///< those that truths have
    AbsentResult absent_compounds;
    matcher::Recalibration recalibration; ///< that which is kept, learned from all parts
};

/// Each exponent, and the offset of unlisted, is kept by itself, where it states left-out values
/// better by more than a standard error (the offset by two). `questions` must not be empty.
[[nodiscard]] ProofResult prove(std::vector<JudgedQuestion> questions);

/// Whether what is stated from now on is clearly too sure, over all candidates or those of one
/// basis.
[[nodiscard]] bool is_any_too_sure(const ProofResult &proof);

/// What was asked of one technique, and what the answers say.
struct ProvedQuestion {
    Technique technique = Technique::tlc;
    library::ProofQuestion question = library::ProofQuestion::run;
    std::size_t systems = 1; ///< that a feature was seen on; the last number means so many or more
    ProofResult result;
};

} // namespace cospot

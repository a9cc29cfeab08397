#pragma once

#include "proving/proof.h"
#include "shared/quantity.h"

#include <cstddef>
#include <string>

namespace cospot {

/// The question that a verdict answers: "a new day".
[[nodiscard]] std::string question_words(library::ProofQuestion question);

/// The same with what the features were seen on: "a new day, features on one system".
[[nodiscard]] std::string subject_words(library::ProofQuestion question, std::size_t systems);

/// What was left out and asked for, in a sentence.
[[nodiscard]] std::string asked_sentence(library::ProofQuestion question);

/// What a proof says about high probabilities, in a plain sentence or two.
[[nodiscard]] std::string verdict_sentence(const Reliability &reliability);

/// The same about candidates of one basis.
[[nodiscard]] std::string verdict_sentence(const BasisResult &result);

/// How compounds that the library lacks were answered.
[[nodiscard]] std::string verdict_sentence(const AbsentResult &result);

/// Whether probabilities are corrected from now on, and what speaks for it.
[[nodiscard]] std::string correction_sentence(const ProofResult &proof);

/// What a proof can do without.
enum class UntriedKind { one_system, several_systems, new_system };

/// What a proof did not try since the library has too few questions for it, and what it would need.
[[nodiscard]] std::string untried_sentence(Technique technique, UntriedKind kind,
                                           std::size_t questions, std::size_t needed);

} // namespace cospot

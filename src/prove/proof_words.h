#pragma once

#include "prove/library_proofs.h"

#include <cstddef>
#include <string>

namespace cospot {

/// What was asked of a technique: "TLC: a new day, features on one system".
[[nodiscard]] std::string subject_words(const ProvedQuestion &proof);

/// The same without the technique.
[[nodiscard]] std::string question_words(library::ProofQuestion question, std::size_t systems);

/// Which compounds a basis is of: "a measured compound".
[[nodiscard]] std::string compound_words(matcher::Basis basis);

/// What was left out and asked for, in a sentence.
[[nodiscard]] std::string asked_sentence(library::ProofQuestion question);

/// What a proof says about high probabilities of all statements together.
[[nodiscard]] std::string verdict_sentence(const Reliability &reliability);

/// The same about compounds of one basis.
[[nodiscard]] std::string verdict_sentence(const BasisResult &result);

/// How compounds that the library lacks were answered.
[[nodiscard]] std::string verdict_sentence(const AbsentResult &result);

/// Whether probabilities are corrected from now on, and what speaks for it.
[[nodiscard]] std::string correction_sentence(const ProofResult &proof);

/// What a proof did not try since the library has too few questions for it, and what it would need.
[[nodiscard]] std::string untried_sentence(const UntriedQuestion &untried);

/// That no question could be asked at all.
[[nodiscard]] std::string nothing_to_prove();

} // namespace cospot

#pragma once

#include "proving/proof.h"

#include "shared/quantity.h"

#include <cstddef>
#include <string>

namespace cospot {

/// What a proof says about high probabilities, in a plain sentence or two.
[[nodiscard]] std::string verdict_sentence(const Reliability &reliability);

/// Whether probabilities are corrected from now on, and what speaks for it.
[[nodiscard]] std::string correction_sentence(const ProofResult &proof);

/// What a proof did not try since the library has too few questions for it, and what it would need.
[[nodiscard]] std::string untried_sentence(Technique technique, bool several_systems,
                                           std::size_t questions, std::size_t needed);

} // namespace cospot

#pragma once

#include "proving/proof.h"

#include <string>

namespace cospot {

/// What a proof says about high probabilities, in a plain sentence or two.
[[nodiscard]] std::string verdict_sentence(const Reliability &reliability);

} // namespace cospot

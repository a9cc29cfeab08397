#pragma once

#include "proving/proof.h"
#include "shared/quantity.h"

#include <string>

namespace cospot {

/// One line of JSON for the proof of one technique.
[[nodiscard]] std::string prove_json(Technique technique, bool several_systems,
                                     const ProofResult &proof);

} // namespace cospot

#pragma once

#include "output/json.h"
#include "proving/proof.h"
#include "shared/quantity.h"

namespace cospot {

/// The proof of one technique; `several_systems` says which features it is about.
[[nodiscard]] Json prove_json(Technique technique, bool several_systems, const ProofResult &proof);

} // namespace cospot

#pragma once

#include "output/style.h"
#include "proving/proof.h"
#include "shared/quantity.h"

#include <string>

namespace cospot {

/// The proof of one technique as a table with a plain verdict; 80 columns.
[[nodiscard]] std::string prove_text(Technique technique, bool several_systems,
                                     const ProofResult &proof, const Style &style);

} // namespace cospot

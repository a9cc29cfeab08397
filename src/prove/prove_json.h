#pragma once

#include "document/json.h"
#include "prove/proof.h"

namespace cospot {

/// What was asked of one technique and how it was answered. `exponent` and `least_in_set` are those
/// of the basis that most truths have; `by_basis` has all, `absent_compounds` what is said about
/// compounds that the library lacks.
[[nodiscard]] Json prove_json(const ProvedQuestion &proof);

} // namespace cospot

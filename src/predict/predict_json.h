#pragma once

#include "document/json.h"
#include "expectation/compound_profile.h"

namespace cospot {

/// All that is said about one compound: structure, descriptors, functional groups, boiling points
/// in K, adsorption, expected retention by system.
[[nodiscard]] Json predict_json(const CompoundProfile &profile);

} // namespace cospot

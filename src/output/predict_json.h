#pragma once

#include "expectation/compound_profile.h"

#include <string>

namespace cospot {

/// One line of JSON for one compound: structure, descriptors, functional groups, boiling points in
/// K, adsorption, expected retention by system.
[[nodiscard]] std::string predict_json(const CompoundProfile &profile);

} // namespace cospot

#pragma once

#include "identification/identification.h"

#include <string>
#include <string_view>

namespace cospot {

/// "0.3 mm below the standard on lane 2"
[[nodiscard]] std::string distance_text(const BesideStandard &standard);

[[nodiscard]] std::string_view to_text(SameOrNot verdict);

/// "differs from vanillin: 5.9 mm above the standard on lane 1"
[[nodiscard]] std::string beside_words(const BesideStandard &standard);

} // namespace cospot

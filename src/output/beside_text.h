#pragma once

#include "identification/identification.h"

#include <string>
#include <string_view>

namespace cospot {

/// "0.3 mm below the standard on lane 2"
[[nodiscard]] std::string distance_text(const BesideStandard &standard);

[[nodiscard]] std::string_view to_text(SameOrNot verdict);

} // namespace cospot

#pragma once

#include "eluent_choice/answer.h"

#include <string>

namespace cospot {

/// One line of JSON: lines of the compounds, best and fastest fraction, crossings, wanted k,
/// gradient, and the whole curve (fraction, critical pair, resolution, k in the order of
/// `compounds`). Fractions from 0 to 1, times in min.
[[nodiscard]] std::string resolve_json(const eluent_choice::Answer &answer);

} // namespace cospot

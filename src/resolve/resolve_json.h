#pragma once

#include "document/json.h"
#include "resolve/answer.h"

namespace cospot {

/// One object: lines of the compounds, best and fastest fraction, crossings, wanted k, gradient,
/// and the whole curve (fraction, critical pair, resolution, k in the order of `compounds`).
/// Fractions from 0 to 1, times in min. What is not known or was not asked for is null. `summary`,
/// `shortfalls`, `remarks` and `basis` are the sentences of resolve_words.h.
[[nodiscard]] Json resolve_json(const resolve::Answer &answer);

} // namespace cospot

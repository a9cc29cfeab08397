#pragma once

#include "identification/identification.h"
#include "model/matcher/ranking.h"
#include "readers/feature.h"

#include <cstddef>
#include <span>

namespace cospot {

/// Lists the likeliest candidates with their groups, `other` and `unlisted`: group after group, the
/// likeliest first, as long as they are `top` candidates at most. A group is listed whole or not at
/// all, but for the first one where it alone is larger. Groups and order do not depend on `top`.
/// `observations` are those of the feature as they were ranked, `further` as of `FurtherRatios`.
void list_candidates(Identification &result, const matcher::Ranking &ranking,
                     std::span<const matcher::Observation> observations,
                     std::span<const double> further, const LibraryEvidence &evidence,
                     KnownCompounds &compounds, std::size_t top);

} // namespace cospot

#pragma once

#include "evidence/feature.h"
#include "evidence/library_evidence.h"
#include "identification/identification.h"
#include "matcher/ranking.h"

#include <span>
#include <vector>

namespace cospot {

/// How a feature lies beside the standards of its run that were used, the nearest first.
/// `observations` are those of the feature as they were ranked.
[[nodiscard]] std::vector<BesideStandard>
beside_standards(const Feature &feature, std::span<const matcher::Observation> observations,
                 const matcher::Ranking &ranking, const LibraryEvidence &evidence);

} // namespace cospot

#pragma once

#include "evidence/library_evidence.h"
#include "identification/identification.h"
#include "model/matcher/ranking.h"
#include "readers/feature.h"

#include <span>
#include <vector>

namespace cospot {

/// How a feature lies beside the standards of its run, the nearest first. `observations` are those
/// of the feature, as the matcher takes them.
[[nodiscard]] std::vector<BesideStandard>
beside_standards(const Feature &feature, std::span<const matcher::Observation> observations,
                 std::span<const EvidenceStandard *const> standards,
                 const matcher::Ranking &ranking, const LibraryEvidence &evidence);

} // namespace cospot

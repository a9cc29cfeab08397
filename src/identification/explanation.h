#pragma once

#include "evidence/library_evidence.h"
#include "identification/candidate_terms.h"
#include "identification/identification.h"
#include "identification/measured_systems.h"
#include "identification/tie_breakers.h"
#include "readers/feature.h"

#include <optional>
#include <span>
#include <vector>

namespace cospot {

/// A tie, and the measurement that would best decide it, if any system holds both compounds.
struct TieBreaker {
    Tie tie;
    std::optional<Separation> best;
};

/// Why the candidates of one feature were ranked as they were, and what to measure next. Empty for
/// a feature without observations.
struct Explanation {
    std::vector<CandidateTerms> candidates; ///< in the order of the identification's
    std::vector<TieBreaker> ties;
};

/// Explains what `identify_sample` said about the features, with the same options; in their order.
[[nodiscard]] std::vector<Explanation> explain_sample(std::span<const Feature *const> features,
                                                      const SampleIdentification &sample,
                                                      const LibraryEvidence &evidence,
                                                      const IdentificationOptions &options,
                                                      MeasuredSystems &systems);

} // namespace cospot

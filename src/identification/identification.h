#pragma once

#include "evidence/feature.h"
#include "evidence/library_evidence.h"
#include "library/database.h"
#include "matcher/groups.h"
#include "matcher/ranking.h"

#include <cstddef>
#include <string>
#include <vector>

namespace cospot {

/// What the user may set.
struct IdentificationOptions {
    matcher::Prior prior;
    std::size_t top = 10;   ///< candidates that are listed
    double coverage = 0.95; ///< of the candidate set
};

/// A candidate as it is reported.
struct ProposedCompound {
    std::string name;
    std::string inchikey;
    double probability = 0.0;
    std::vector<matcher::Comparison> comparisons; ///< one for each system where it was measured
    double further = 0.0; ///< log-likelihood ratio of further evidence against `unlisted`
};

/// All that is said about one feature. The probabilities of `candidates`, `unlisted` and `other`
/// sum to 1.
struct Identification {
    std::vector<ProposedCompound> candidates; ///< the likeliest first, at most `top`
    std::vector<matcher::Group> groups;       ///< of `candidates`, by position
    double unlisted = 1.0;
    double other = 0.0; ///< of all candidates that are not listed
    std::size_t other_count = 0;
    std::vector<std::string> set; ///< names, with "unlisted" in its place
    std::vector<std::string> warnings;
    std::string level; ///< of identification, in words
};

/// Ranks the candidates of one feature.
[[nodiscard]] Identification identify_feature(const Feature &feature,
                                              const LibraryEvidence &evidence,
                                              library::Database &database,
                                              const IdentificationOptions &options);

} // namespace cospot

#pragma once

#include "evidence/feature.h"
#include "evidence/library_evidence.h"
#include "identification/known_compounds.h"
#include "matcher/groups.h"
#include "matcher/recalibration.h"
#include "matcher/sample.h"

#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <tuple>
#include <vector>

namespace cospot {

/// The features that one proof of the library speaks for.
struct ProvedKind {
    Technique technique = Technique::tlc; ///< of all systems that they were seen on
    bool several_systems = false;

    bool operator<(const ProvedKind &other) const {
        return std::tie(technique, several_systems) <
               std::tie(other.technique, other.several_systems);
    }
};

/// What the user may set.
struct IdentificationOptions {
    matcher::SamplePrior prior;
    std::size_t top = 10;                                          ///< candidates that are listed
    std::map<ProvedKind, matcher::Recalibration> recalibrations{}; ///< of stated probabilities
    bool fills_set = true; ///< fill `Identification::set`, whose names take time to look up
};

/// A candidate as it is reported.
struct ProposedCompound {
    std::size_t compound = 0; ///< index in the evidence
    std::string name;
    std::string inchikey;
    std::string smiles;
    double probability = 0.0;
    std::vector<matcher::Comparison> comparisons; ///< one for each system where it was measured
    double further = 0.0; ///< log-likelihood ratio of further evidence against `unlisted`
};

/// All that is said about one feature. The probabilities of `candidates`, `unlisted` and `other`
/// sum to 1; `unlisted` has all where no compound is known on what the feature was seen on.
struct Identification {
    std::vector<ProposedCompound> candidates; ///< group after group, at most `top`
    std::vector<matcher::Group> groups;       ///< of `candidates`, by position; the likeliest first
    double unlisted = 1.0;
    double other = 0.0; ///< of all candidates that are not listed
    std::size_t other_count = 0;
    std::size_t compounds = 0;    ///< of the library that could have been proposed
    std::vector<std::string> set; ///< names, with "unlisted" in its place
    std::vector<std::string> warnings;
    std::string level; ///< of identification, in words
};

/// What is said about the features of one lane or run, and about all of them together.
struct SampleIdentification {
    std::vector<Identification> features; ///< in the order of the features
    std::vector<std::string> notes;       ///< e.g. by how much the run is shifted
    /// What the matcher was asked and answered, of the features that have observations; before any
    /// recalibration.
    std::vector<matcher::SampleFeature> observed;
    matcher::SampleRanking ranking;
};

/// Ranks the candidates of the features of one lane or run, jointly. Several threads may call it
/// with the same evidence and compounds.
[[nodiscard]] SampleIdentification identify_sample(std::span<const Feature *const> features,
                                                   const LibraryEvidence &evidence,
                                                   KnownCompounds &compounds,
                                                   const IdentificationOptions &options);

/// The systems on which a feature was observed.
[[nodiscard]] std::set<std::string> systems_of(const Feature &feature);

/// Which proof speaks for a feature; none does where it was seen by several techniques, or not
/// at all.
[[nodiscard]] std::optional<ProvedKind> proved_kind(const Feature &feature,
                                                    const LibraryEvidence &evidence);

/// The features that were run together: those of one lane, or of one sample; in the order of their
/// first features.
[[nodiscard]] std::vector<std::vector<const Feature *>>
run_together(const std::vector<Feature> &features);

} // namespace cospot

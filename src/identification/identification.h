#pragma once

#include "evidence/library_evidence.h"
#include "identification/known_compounds.h"
#include "identification/registered_run.h"
#include "model/matcher/groups.h"
#include "model/matcher/recalibration.h"
#include "model/matcher/sample.h"
#include "readers/feature.h"

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
    bool little_measured = false;         ///< other systems told about most candidates on these
    std::size_t systems = 1;              ///< the last number means so many or more

    bool operator<(const ProvedKind &other) const {
        return std::tie(technique, little_measured, systems) <
               std::tie(other.technique, other.little_measured, other.systems);
    }
};

/// What the user may set.
struct IdentificationOptions {
    matcher::SamplePrior prior;
    std::size_t top = 10;                                          ///< candidates that are listed
    std::map<ProvedKind, matcher::Recalibration> recalibrations{}; ///< of stated probabilities
    RunSearch search = RunSearch::wanted; ///< of how the run lies against the library
    bool fills_set = true; ///< fill `Identification::set`, whose names take time to look up
};

/// Whether a feature and a standard in the same run are one compound.
enum class SameOrNot {
    runs_with,     ///< likelier than not, and within three spreads of it
    differs,       ///< improbable
    cannot_be_told ///< all between
};

/// How a feature lies beside a standard of its run.
struct BesideStandard {
    std::size_t compound = 0; ///< index in the evidence
    std::string name;         ///< as the run gives it
    std::string place;        ///< "lane 2" or "peak 3"
    std::string system;
    double distance = 0.0;    ///< of the feature above (or behind) the standard
    std::string unit;         ///< mm, s, the quantity, or "in Rf" of spots noted so
    double probability = 0.0; ///< that they are one compound
    SameOrNot verdict = SameOrNot::cannot_be_told;
    bool is_near = true; ///< worth a look: within three spreads of the standard, or on its plate
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
    double not_measured = 0.0; ///< of compounds that the library holds, but not where the feature
                               ///< was seen; `other` has it too
    std::size_t not_measured_count = 0;
    double other = 0.0; ///< of all candidates that are not listed
    std::size_t other_count = 0;
    std::size_t compounds = 0;             ///< of the library that could have been proposed
    std::vector<std::string> set;          ///< names, with "unlisted" in its place
    std::vector<BesideStandard> standards; ///< of its run, the nearest first
    std::vector<CoSpot> cospots;           ///< of its spot with a standard
    std::vector<std::string> warnings;
    std::string level; ///< of identification, in words
};

/// What is said about the features of one lane or sample, and about all of them together.
struct SampleIdentification {
    std::vector<const Feature *> asked;   ///< the features
    std::vector<Identification> features; ///< in their order
    std::vector<std::string> notes;       ///< e.g. how many of them are unlisted
    /// What the matcher was asked and answered, of the features that have observations; before any
    /// recalibration.
    std::vector<matcher::SampleFeature> observed;
    matcher::SampleRanking ranking;
};

/// What is said about the features of one plate, injection or series.
struct RunIdentification {
    std::vector<SampleIdentification> samples; ///< one a lane or sample
    std::vector<RunPlace> places;              ///< how the run lies against the library
    std::vector<std::string> notes;            ///< e.g. by how much the run is shifted
    bool needs_attention = false;              ///< a note tells of something that should not be
};

/// Ranks the candidates of the features of one run: finds how the run lies against the library,
/// then judges the features of each lane or sample jointly. Several threads may call it with the
/// same evidence and compounds.
[[nodiscard]] RunIdentification identify_run(std::span<const Feature *const> features,
                                             const LibraryEvidence &evidence,
                                             KnownCompounds &compounds,
                                             const IdentificationOptions &options);

/// The systems on which a feature was observed.
[[nodiscard]] std::set<std::string> systems_of(const Feature &feature);

/// Which proof speaks for a feature; none does where it was seen by several techniques, or not
/// at all.
[[nodiscard]] std::optional<ProvedKind> proved_kind(const Feature &feature,
                                                    const LibraryEvidence &evidence);

/// The features of each lane of a plate, or each sample, in the order of their first features.
[[nodiscard]] std::vector<std::vector<const Feature *>>
lanes_of(std::span<const Feature *const> features);

/// The features of each run, in the order of their first features.
[[nodiscard]] std::vector<std::vector<const Feature *>> runs_of(std::span<const Feature> features);

/// All features that an input holds.
[[nodiscard]] std::vector<const Feature *> all_of(std::span<const Feature> features);

} // namespace cospot

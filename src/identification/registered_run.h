#pragma once

#include "evidence/further_evidence.h"
#include "evidence/library_evidence.h"
#include "identification/known_compounds.h"
#include "model/matcher/run_registration.h"
#include "model/matcher/sample.h"
#include "model/matcher/standard_labels.h"
#include "readers/feature.h"

#include <span>
#include <string>
#include <vector>

namespace cospot {

/// How a run lies against the library on one system, in words and figures for a reader.
struct RunPlace {
    std::string system;
    Quantity quantity = Quantity::Rf;
    matcher::RegisteredSystem found;
    bool moved = false; ///< farther off than runs of the library are
};

/// The features of one plate, injection or sample with all that they and the standards beside them
/// say of how the run lies against the library.
struct RegisteredRun {
    std::vector<const Feature *> features;           ///< those that have observations
    std::vector<matcher::SampleFeature> observed;    ///< of each
    std::vector<FurtherRatios> further;              ///< of each
    std::vector<std::vector<CoSpot>> cospots;        ///< of each
    std::vector<const EvidenceStandard *> standards; ///< whose labels are trusted
    std::vector<RunPlace> places;
    std::vector<std::string> notes;
    bool needs_attention = false; ///< a note tells of something that should not be
};

/// Whether the run of its features is to be found.
enum class RunSearch { wanted, not_wanted };

/// Checks the labels of the standards, joins those that are trusted to the features of their run
/// and finds how the run lies against the library. All features have the same run.
[[nodiscard]] RegisteredRun register_features(std::span<const Feature *const> features,
                                              const LibraryEvidence &evidence,
                                              KnownCompounds &compounds,
                                              const matcher::SamplePrior &prior, RunSearch search);

} // namespace cospot

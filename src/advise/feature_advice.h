#pragma once

#include "advise/efforts.h"
#include "advise/information.h"
#include "readers/feature.h"
#include "evidence/library_evidence.h"
#include "identification/measured_systems.h"
#include "identification/identification.h"
#include "library/database.h"

#include <cstddef>
#include <string>
#include <vector>

namespace cospot {

/// A measurement that was not made yet.
struct AdvisedMeasurement {
    std::string name;      ///< e.g. "silica-DM201", "beside linalool on silica-HEA41", "ninhydrin"
    std::string kind;      ///< a technique, "standard", "stain" or "mass"
    std::size_t known = 0; ///< candidates of which the library knows what they would show
    ExpectedGain gain;
    double effort = 1.0; ///< in plates

    [[nodiscard]] double bits_per_effort() const { return gain.bits / effort; }
};

/// A candidate that the advice is about.
struct OpenCandidate {
    std::string name;
    double probability = 0.0;
};

/// What is open about one feature, and what would settle it: the most bits for the effort first.
struct FeatureAdvice {
    double open_bits = 0.0;                ///< entropy of the identity, `unlisted` included
    std::vector<OpenCandidate> candidates; ///< the likeliest first
    double other = 0.0;                    ///< probability of all other candidates together
    double unlisted = 0.0;
    std::size_t remaining = 0; ///< of the candidates in the 95 % set: the first of them
    std::vector<AdvisedMeasurement> measurements;
};

/// What all features of a library have in common, read once.
struct AdviceSources {
    library::Database &database;
    const LibraryEvidence &evidence;
    MeasuredSystems &systems;
    Efforts efforts;
    std::vector<CompoundTraits> library; ///< of an even choice of the library's compounds
};

/// Traits of at most 300 compounds of the evidence, an even choice.
[[nodiscard]] std::vector<CompoundTraits> sampled_traits(library::Database &database,
                                                         const LibraryEvidence &evidence);

/// Judges, for the candidates that hold 99 % of what is not `unlisted` (25 at most), every other
/// system of the library, a run beside the standards of the likeliest ones, every reagent where the
/// feature is a spot, and a molar mass. A measurement that was made already is left out, and so is
/// one that would tell less than 0.02 bits.
[[nodiscard]] FeatureAdvice advise(const Feature &feature, const Identification &identification,
                                   AdviceSources &sources);

/// For measurements that tell about all features of a sample at once (systems, reagents): the sum
/// of what they tell about each. The most bits for the effort first.
[[nodiscard]] std::vector<AdvisedMeasurement>
for_whole_sample(const std::vector<FeatureAdvice> &features);

} // namespace cospot

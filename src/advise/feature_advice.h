#pragma once

#include "advise/efforts.h"
#include "advise/information.h"
#include "evidence/library_evidence.h"
#include "identification/identification.h"
#include "identification/measured_systems.h"
#include "library/database.h"
#include "readers/feature.h"

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
    std::string sample; ///< may be empty
    std::string feature;
    double open_bits = 0.0;                ///< entropy of the identity, `unlisted` included
    std::vector<OpenCandidate> candidates; ///< the likeliest first
    double other = 0.0;                    ///< probability of all other candidates together
    double unlisted = 0.0;
    std::size_t remaining = 0; ///< of the candidates in the 95 % set: the first of them
    std::vector<AdvisedMeasurement> measurements;
};

/// The advice on the features of one sample, and on all of them at once.
struct SampleAdvice {
    std::vector<FeatureAdvice> features;
    std::vector<AdvisedMeasurement> together; ///< of several features only
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
/// one that would tell less than 0.02 bits. The `top` best are kept of each feature, and of those
/// that tell about several features at once (systems, reagents): the sums of what they tell about
/// each.
[[nodiscard]] SampleAdvice advise_sample(const SampleIdentification &sample, AdviceSources &sources,
                                         std::size_t top);

} // namespace cospot

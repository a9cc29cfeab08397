#pragma once

#include "evidence/library_evidence.h"
#include "identification/identification.h"
#include "library/database.h"
#include "purity/amounts.h"
#include "purity/hidden.h"
#include "purity/identities.h"
#include "purity/limits.h"
#include "purity/residual_solvents.h"
#include "purity/solvent_amounts.h"
#include "readers/feature.h"

#include <optional>
#include <span>
#include <string>

namespace cospot::purity {

/// All that a sample is judged by, its residual solvents only where `solvents` is set.
struct Question {
    Declaration declaration;
    Limits limits;
    Detection detection;
    ResponseLookup response_of;
    std::optional<SolventQuestion> solvents{};
    RelativeResponse relative_response{}; ///< for solvents
};

/// One sample as it was read.
struct SampleInput {
    std::string file;
    std::string system;                ///< that it was run on
    std::span<const Feature> features; ///< of one lane or run
    const RunScale &scale;
    const FeatureSet &blank;                  ///< without features: none was given
    std::span<const RunStandard> standards{}; ///< of the run
};

/// Judges one sample. What the blank explains takes no part in the identification. Throws
/// InputError as `set_amounts` and `set_ppm` do, and where the blank leaves nothing.
[[nodiscard]] JudgedSample judge(const SampleInput &input, const Question &question,
                                 const LibraryEvidence &evidence, library::Database &database,
                                 const IdentificationOptions &how);

} // namespace cospot::purity

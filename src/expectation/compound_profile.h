#pragma once

#include "descriptors/adsorption.h"
#include "descriptors/boiling_point.h"
#include "descriptors/descriptors.h"
#include "descriptors/structure.h"
#include "expectation/expected_retention.h"

#include <string>
#include <utility>
#include <vector>

namespace cospot {

/// All that `predict` says about one compound.
struct CompoundProfile {
    AskedCompound compound;
    descriptors::Structure structure;
    descriptors::Descriptors descriptors;
    std::vector<std::pair<std::string, int>> groups; ///< functional groups that occur
    descriptors::BoilingPointEstimates boiling;
    descriptors::SilicaAdsorption adsorption;
    std::vector<ExpectedRetention> retention;
};

/// Describes a structure (without retention). Loads RDKit. Throws InputError for a structure that
/// cannot be read.
[[nodiscard]] CompoundProfile profile_of(const AskedCompound &compound);

} // namespace cospot

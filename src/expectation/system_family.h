#pragma once

#include "expectation/kept_features.h"
#include "library/database.h"
#include "library/systems.h"
#include "model/prediction/retention_table.h"

#include <cstddef>
#include <map>
#include <vector>

namespace cospot {

/// Mean value of a compound in a mixture, on the matcher's model scale.
struct OwnValue {
    std::size_t mixture = 0;
    double value = 0.0;
};

/// Systems that differ in the composition of their mobile phase only, and what the library holds on
/// them: what one of them shows of a compound tells something about the others. A gas
/// chromatographic system, and one whose values are indices or times, stands alone.
struct SystemFamily {
    Quantity quantity = Quantity::Rf;
    std::vector<library::System> systems;       ///< a mixture of the table each
    std::vector<library::CompoundId> compounds; ///< of the table
    prediction::RetentionTable table;           ///< values on the matcher's model scale
    /// Means of each compound in the mixtures that it was measured in, of those left out too.
    std::map<library::CompoundId, std::vector<OwnValue>> own_values;
};

/// Models grow with the cube of their compounds; of more than these an even choice is taken.
inline constexpr std::size_t kMostTrainingCompounds = 400;

/// The family of a system. Loads RDKit where the features of a structure are not kept.
[[nodiscard]] SystemFamily system_family(library::Database &database, const library::System &system,
                                         Quantity quantity, KeptFeatures &features);

} // namespace cospot

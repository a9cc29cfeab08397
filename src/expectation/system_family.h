#pragma once

#include "library/database.h"
#include "library/systems.h"
#include "prediction/retention_table.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace cospot {

/// Systems that differ in the composition of their mobile phase only, and what the library holds on
/// them: what one of them shows of a compound tells something about the others. A gas
/// chromatographic system, and one whose values are indices or times, stands alone.
struct SystemFamily {
    Quantity quantity = Quantity::Rf;
    std::vector<library::System> systems; ///< a mixture of the table each
    std::size_t target = 0;               ///< position of the system asked for
    std::vector<std::int64_t> compounds;  ///< library ids of the table's compounds
    prediction::RetentionTable table;     ///< values on the matcher's model scale
    std::size_t left_out = 0;             ///< compounds beyond `kMostTrainingCompounds`
};

/// Models grow with the cube of their compounds; of more than these an even choice is taken.
inline constexpr std::size_t kMostTrainingCompounds = 400;

/// The family of a system, without the values of one compound if that is to be predicted. Loads
/// RDKit for the structures.
[[nodiscard]] SystemFamily family_of(library::Database &database, const library::System &system,
                                     Quantity quantity, std::optional<std::int64_t> without);

} // namespace cospot

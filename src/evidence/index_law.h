#pragma once

#include "library/systems.h"
#include "quantities/retention_index.h"

#include <string>

namespace cospot {

/// Which law interpolates the index on a system, and why.
struct ChosenLaw {
    quantities::IndexLaw law = quantities::IndexLaw::linear;
    bool is_assumed = false; ///< the system states no programme
};

/// Isothermal and isocratic systems take the logarithmic law (Kovats), programmed ones the linear
/// law. The programme is looked for in the system's programme, then in its mobile phase and note.
/// Where none is stated, GC counts as programmed and liquid chromatography as isocratic.
[[nodiscard]] ChosenLaw index_law_of(const library::System &system);

} // namespace cospot

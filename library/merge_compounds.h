#pragma once

#include "library/merge_context.h"

namespace cospot::library {

/// Takes over compounds, their names and registry numbers. Returns the ids of all compounds.
[[nodiscard]] IdMap<CompoundId> merge_compounds(MergeContext &merge, const MergeOptions &options);

} // namespace cospot::library

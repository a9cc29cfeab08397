#pragma once

#include "library/merge_context.h"

namespace cospot::library {

/// Takes over runs on the accepted systems, with their ladders. Returns their ids.
[[nodiscard]] IdMap<RunId> merge_runs(MergeContext &merge, const IdMap<SystemId> &systems);

/// Takes over the values of the accepted runs, each with its state.
void merge_values(MergeContext &merge, const IdMap<CompoundId> &compounds,
                  const IdMap<SystemId> &systems, const IdMap<RunId> &runs,
                  const MergeOptions &options);

} // namespace cospot::library

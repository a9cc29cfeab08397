#pragma once

#include "library/merge_context.h"

#include <string>

namespace cospot::library {

/// Takes over systems. Returns the ids of those whose values can be taken over too; a system that
/// contradicts ours of the same name is not among them unless it is stored under a new name.
[[nodiscard]] IdMap<SystemId> merge_systems(MergeContext &merge, const MergeOptions &options);

} // namespace cospot::library

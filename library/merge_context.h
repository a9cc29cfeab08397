#pragma once

#include "library/database.h"
#include "library/merge.h"

#include <cstdint>
#include <string>
#include <unordered_map>

namespace cospot::library {

/// Ids of the other library and what they are here.
using IdMap = std::unordered_map<std::int64_t, std::int64_t>;

/// What all steps of a merge share.
struct MergeContext {
    Database &here;
    Database &there;
    std::string other; ///< what the other library is called: its file name without folder
    std::int64_t change = 0;
    MergeSummary &summary;
    IdMap copied_changes; ///< retirements of the other library that were taken over
};

/// Takes over a change of the other library, with who made it and when; returns its id here.
std::int64_t copy_change(MergeContext &merge, std::int64_t change);

} // namespace cospot::library

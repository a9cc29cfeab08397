#pragma once

#include "library/database.h"
#include "library/merge.h"

#include <string>
#include <unordered_map>

namespace cospot::library {

/// Ids of the other library and what they are here.
template <class Id> using IdMap = std::unordered_map<Id, Id>;

/// What all steps of a merge share.
struct MergeContext {
    Database &here;
    Database &there;
    std::string other; ///< what the other library is called: its file name without folder
    ChangeId change{};
    MergeSummary &summary;
    IdMap<ChangeId> copied_changes; ///< retirements of the other library that were taken over
};

/// Takes over a change of the other library, with who made it and when; returns its id here.
ChangeId copy_change(MergeContext &merge, ChangeId change);

} // namespace cospot::library

#pragma once

#include "shared/error.h"

#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// A reagent that makes spots visible (or the lamp at 254 nm), as src/quantities/data/stains.tsv
/// has it, with the sources.
struct Stain {
    std::string name;
    std::vector<std::string> aliases;
    std::vector<std::string> reacts;        ///< names of functional groups
    std::vector<std::string> reacts_weakly; ///< names of functional groups
    double if_reacts = 0.0; ///< probability that a compound with a group that reacts is seen
    double if_none = 0.0;   ///< probability that a compound without any of the groups is seen
};

/// All reagents, in the order of the table.
[[nodiscard]] const std::vector<Stain> &stains();

/// The reagent of that name or alias (case of ASCII letters ignored), or null.
[[nodiscard]] const Stain *find_stain(std::string_view name);

/// The same; throws InputError at `where`, with all names, where there is none.
[[nodiscard]] const Stain &stain_named(std::string_view name, const Where &where);

/// Absorption at 254 nm, seen as a dark spot on a fluorescent layer.
[[nodiscard]] const Stain &uv254();

/// Probability that a spot of a compound with these groups is seen. A group that reacts weakly
/// counts halfway between `if_reacts` and `if_none`.
[[nodiscard]] double seen_probability(const Stain &stain, const std::set<std::string> &groups);

} // namespace cospot

#pragma once

#include <string>
#include <vector>

namespace cospot::descriptors {

/// One row of descriptors/data/functional_groups.tsv.
struct FunctionalGroup {
    std::string name;
    std::string smarts;
    std::string meaning;
};

/// The table, in the order in which `Descriptors::groups` counts. Read once.
[[nodiscard]] const std::vector<FunctionalGroup> &functional_groups();

} // namespace cospot::descriptors

#pragma once

#include <vector>

namespace RDKit {
class ROMol;
}

namespace cospot::descriptors {

/// How often each group of `functional_groups` occurs in a sanitized molecule.
[[nodiscard]] std::vector<int> count_groups(const RDKit::ROMol &molecule);

} // namespace cospot::descriptors

#pragma once

#include <string>
#include <vector>

namespace cospot {

/// A compound whose structure is to be shown.
struct ShownCompound {
    std::string name;
    std::string smiles;
    std::string note; ///< under the name, plain text; may be empty
};

/// Structural formulas with their names side by side, each structure once; those without SMILES
/// are left out. Loads RDKit unless there are none.
[[nodiscard]] std::string structure_gallery(const std::vector<ShownCompound> &compounds);

} // namespace cospot

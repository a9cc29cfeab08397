#pragma once

#include "shared/error.h"

#include <string>
#include <vector>

namespace cospot {

/// A structure with its names, as the user states it.
struct CompoundRow {
    std::string compound;
    std::string smiles;
    std::string mol_block; ///< instead of SMILES
    std::string cas;
    std::vector<std::string> synonyms;
    Where where; ///< file and line

    [[nodiscard]] Where at(const char *column) const { return {where.file, where.line, column}; }
};

} // namespace cospot

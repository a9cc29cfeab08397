#pragma once

#include "library/rename.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace cospot {

/// What a call of `rename` asks for.
struct RenameOptions {
    enum class Kind { any, system };
    Kind kind = Kind::any;
    library::Rename wanted;
    std::optional<std::string> smiles; ///< of the corrected structure
};

/// What has another name or structure now.
struct RenameResult {
    std::variant<library::RenamedCompound, library::RenamedSystem> renamed;
    std::vector<std::string> notes; ///< what should be looked at now
};

} // namespace cospot

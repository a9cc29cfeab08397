#pragma once

#include "descriptors/structure.h"
#include "shared/error.h"

#include <string>
#include <unordered_map>
#include <variant>
#include <vector>

namespace cospot {

/// Structures by their SMILES as written, each read once. Memory grows with the number of different
/// SMILES.
class StructureCache {
public:
    /// Reads those that are new, on all cores. Faulty ones are kept as such and throw in `get`.
    void prepare(const std::vector<std::string> &smiles);

    /// The structure of a SMILES; throws InputError at `where` if it is faulty.
    [[nodiscard]] const descriptors::Structure &get(const std::string &smiles, const Where &where);

private:
    struct Fault {
        std::string found;
        std::string expected;
    };
    using Result = std::variant<descriptors::Structure, Fault>;
    static Result read(const std::string &smiles);

    std::unordered_map<std::string, Result> results_;
};

} // namespace cospot

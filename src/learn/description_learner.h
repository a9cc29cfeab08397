#pragma once

#include "library/database.h"
#include "library/descriptions.h"

#include <string>

namespace cospot {

/// What a structure says about itself, in the terms of the library. Loads RDKit. Throws InputError
/// for a SMILES that cannot be read.
[[nodiscard]] library::Description described(const std::string &smiles);

/// Describes the compounds of the library that have no description yet, on all cores. Loads RDKit
/// if there are any.
void describe_new_compounds(library::Database &database);

} // namespace cospot

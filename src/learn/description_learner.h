#pragma once

#include "library/database.h"

namespace cospot {

/// Describes the compounds of the library that have no description yet, on all cores. Loads RDKit
/// if there are any.
void describe_new_compounds(library::Database &database);

} // namespace cospot

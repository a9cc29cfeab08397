#pragma once

#include "expectation/expected_retention.h"
#include "library/database.h"
#include "readers/input_file.h"
#include "shared/error.h"

#include <string>
#include <vector>

namespace cospot {

/// A structure that somebody asks about; it is looked up in the library. Throws InputError at
/// `where` if it cannot be read.
[[nodiscard]] AskedCompound asked_by_structure(const std::string &name, const std::string &smiles,
                                               const Where &where, library::Database &database);

/// The structures of a file (.smi, .sdf, or a table with the columns compound,smiles).
[[nodiscard]] std::vector<AskedCompound> asked_in_file(InputFile &file,
                                                       library::Database &database);

} // namespace cospot

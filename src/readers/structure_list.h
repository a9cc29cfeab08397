#pragma once

#include "readers/compound_row.h"
#include "readers/input_file.h"

#include <vector>

namespace cospot {

/// The structures of a file: a list of SMILES with names (.smi), an SD file (.sdf), or a table with
/// the columns compound,smiles. Throws InputError for a faulty file or one without structures.
[[nodiscard]] std::vector<CompoundRow> read_structures(InputFile &file);

} // namespace cospot

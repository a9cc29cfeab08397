#pragma once

#include "fractions/column_plan.h"
#include "shared/table.h"

#include <iosfwd>
#include <string>
#include <vector>

namespace cospot {

/// What a table of compounds for a column says.
struct ColumnTable {
    std::vector<fractions::PlateCompound> compounds;
    std::vector<std::string> notes; ///< on how the table was read
};

/// Reads the compounds of a sample with their places on a plate (columns compound,Rf; optional
/// role, "target" or "impurity", and amount_mg). Throws InputError for an R_F outside 0..1, a
/// compound or a target named twice, a negative amount, and a table without rows.
[[nodiscard]] ColumnTable read_column_compounds(std::istream &in, const std::string &file,
                                                const std::vector<ColumnAlias> &aliases = {});

} // namespace cospot

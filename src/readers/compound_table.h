#pragma once

#include "readers/compound_row.h"
#include "shared/table.h"

#include <iosfwd>
#include <string>
#include <vector>

namespace cospot {

/// A table of structures without values (columns compound,smiles, optional cas,synonyms; synonyms
/// are divided by '|'). Throws InputError for a missing name or structure and a wrong registry
/// number.
class CompoundTable {
public:
    CompoundTable(std::istream &in, std::string file, const std::vector<ColumnAlias> &aliases);

    /// Reads the next row; false at the end.
    [[nodiscard]] bool next(CompoundRow &row);
    [[nodiscard]] const std::vector<std::string> &header() const { return table_.header(); }
    [[nodiscard]] const std::vector<std::string> &fields() const { return table_.fields(); }
    [[nodiscard]] std::vector<std::string> notes() const { return table_.notes(); }

private:
    void read(CompoundRow &row) const;

    TableReader table_;
};

} // namespace cospot

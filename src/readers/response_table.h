#pragma once

#include "shared/error.h"
#include "shared/table.h"

#include <iosfwd>
#include <string>
#include <vector>

namespace cospot {

/// A relative response factor as it is written down.
struct ResponseRow {
    std::string compound;
    std::string relative_to; ///< the compound whose factor is 1
    std::string system;
    double factor = 1.0;
    std::string date;
    std::string source;
    std::string note;
    Where compound_where;
    Where relative_to_where;
    Where system_where;
};

/// Reads relative response factors (columns compound, relative_to, system, response_factor,
/// optional date, source, note): peak area of the compound over that of the same mass of the other.
/// Throws InputError for factors outside 0.001 to 1000 and for a compound relative to itself.
[[nodiscard]] std::vector<ResponseRow> read_responses(std::istream &in, const std::string &file,
                                                      const std::vector<ColumnAlias> &aliases);

} // namespace cospot

#pragma once

#include "shared/error.h"
#include "shared/table.h"

#include <iosfwd>
#include <string>
#include <vector>

namespace cospot {

/// How much likelier than others the user holds a compound before the measurement.
struct PriorWeight {
    std::string compound; ///< a name in the library
    double weight = 1.0;  ///< relative; a compound that is not listed has weight 1
    Where where;
};

/// Reads prior weights (columns compound,weight). Throws InputError for weights that are not
/// positive or above a million, for a compound named twice, and for a table without rows.
[[nodiscard]] std::vector<PriorWeight> read_prior(std::istream &in, const std::string &file,
                                                  const std::vector<ColumnAlias> &aliases = {});

} // namespace cospot

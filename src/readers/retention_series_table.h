#pragma once

#include "readers/measured_compound.h"
#include "shared/table.h"

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// Isocratic readings of a mixture at several compositions.
struct RetentionSeries {
    std::vector<resolve::MeasuredCompound> compounds; ///< in the order of the file
    std::vector<std::string> notes;                   ///< columns that nobody reads
    std::vector<double> plate_numbers;                ///< one a width that the file states
};

/// Reads a table with the columns compound, fraction (0 to 1) or percent (0 to 100) of the
/// modifier, and k or tR in min; width_half in min is optional. Times and widths need the hold-up
/// time in min. Throws InputError for a fraction out of its range, a k that is not above 0, a time
/// that is not above the hold-up time, a width that is not above 0, a compound twice at one
/// fraction with different values, and a compound at one fraction only.
[[nodiscard]] RetentionSeries read_retention_series(std::istream &in, const std::string &file,
                                                    std::optional<double> hold_up_min,
                                                    const std::vector<ColumnAlias> &aliases = {});

} // namespace cospot

#pragma once

#include "shared/table.h"

#include <optional>
#include <string>
#include <string_view>

namespace cospot {

/// An amount as a report gives it, which may have been too little to be measured.
struct MeasuredAmount {
    std::optional<double> value;
    bool is_below = false;       ///< below a limit, or not detected; then there is no value
    std::optional<double> limit; ///< that it is below, where the cell says a number: "< 20"
    bool is_undetected = false;  ///< below the limit of detection: "n.d.", "< LOD"; else below a
                                 ///< number or the limit of quantitation
};

/// Whether a cell says that too little was there: "< 20", "<LOQ", "< LOD", "n.d.", "BLQ" (common
/// practice, no source). `limit` is its number.
[[nodiscard]] MeasuredAmount amount_below(std::string_view text);

/// The column as `TableReader::optional_amount` reads it, or as `amount_below` does.
[[nodiscard]] MeasuredAmount read_measured_amount(const TableReader &table, std::string_view column,
                                                  const std::string &expected);

} // namespace cospot

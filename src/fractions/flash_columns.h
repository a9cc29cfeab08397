#pragma once

#include <cstddef>
#include <optional>
#include <vector>

namespace cospot::fractions {

/// A row of the table of flash columns (data/flash_columns.tsv), or what lies between two rows.
struct FlashColumn {
    double diameter_mm = 0.0; ///< inner
    double eluent_ml = 0.0;   ///< for packing and separation
    double load_mg = 0.0;     ///< of the whole sample
    double fraction_ml = 0.0;
};

/// The bed that the table is about.
inline constexpr double kFlashBed_mm = 150.0;
/// Differences of R_F for which it gives loads.
inline constexpr double kEasySeparation = 0.2;
inline constexpr double kHardSeparation = 0.1;

/// The rows for neighbours whose R_F differ by `difference` or more, narrow columns first: those
/// for 0.2 or for 0.1, never for more than was asked. Throws InputError for a difference below 0.1:
/// the table holds nothing on it.
[[nodiscard]] std::vector<FlashColumn> flash_columns(double difference);

/// How a load relates to the table.
enum class TablePlace {
    on_or_between_rows,
    below_first_row, ///< the narrowest column takes more
    beyond_last_row, ///< the widest column takes less
};

/// A column that takes a load.
struct ColumnAdvice {
    FlashColumn column;
    TablePlace place = TablePlace::on_or_between_rows;
    std::size_t portions = 1; ///< in which the sample is run; above 1 only beyond the last row
};

/// The column for a sample of `load_mg` (above 0) with neighbours `difference` apart. Between rows
/// all values are interpolated along the logarithm of the load (a column's capacity grows with the
/// square of its diameter). Below the first row it is the narrowest column; beyond the last one the
/// widest, for portions of the sample: nothing is extrapolated. Errors as `flash_columns`.
[[nodiscard]] ColumnAdvice advise_column(double load_mg, double difference);

/// The row or interpolated row of a given diameter; none outside the table.
[[nodiscard]] std::optional<FlashColumn> flash_column_of(double diameter_mm, double difference);

} // namespace cospot::fractions

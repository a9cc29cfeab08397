#pragma once

#include "library/database.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot::library {

/// A column of the laboratory's own. At least its silica, its bed (diameter and height) or its
/// hold-up volume is known.
struct PackedColumn {
    ColumnId id{};
    std::string name; ///< case does not count
    std::optional<double> silica_g;
    std::optional<double> diameter_mm;
    std::optional<double> bed_mm;
    std::optional<double> hold_up_ml; ///< measured
    std::optional<double> outside_ml; ///< measured, outside the bed
};

/// Where a band left a column.
struct ColumnBand {
    std::string run;
    std::string date; ///< YYYY, YYYY-MM or YYYY-MM-DD, or empty
    std::string compound;
    double rf = 0.0; ///< on a plate in the eluent of the run
    double start_ml = 0.0;
    std::optional<double> peak_ml;
    double end_ml = 0.0;
    std::optional<double> amount_mg;
    double load_ml = 0.0;
    std::string source;
    std::string note;
};

[[nodiscard]] std::optional<PackedColumn> find_column(Database &database, std::string_view name);
/// By name.
[[nodiscard]] std::vector<PackedColumn> all_columns(Database &database);

/// Stores a column that the library does not hold yet.
ColumnId add_column(Database &database, const PackedColumn &column, ChangeId change);

/// Stores a band unless the same was stored before; returns whether it was new.
bool add_band(Database &database, ColumnId column, const ColumnBand &band, ChangeId change);

/// The bands of a column, the oldest first.
[[nodiscard]] std::vector<ColumnBand> bands_of_column(Database &database, ColumnId column);

/// Whether two columns of one name are said to have the same bed and volumes.
[[nodiscard]] bool is_same_bed(const PackedColumn &a, const PackedColumn &b);

} // namespace cospot::library

#pragma once

#include "fractions/calibration.h"
#include "shared/error.h"
#include "shared/table.h"

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// A band of a column run, with its column, as it is written down.
struct ColumnRunRow {
    std::string column;
    std::optional<double> silica_g; ///< this and the sizes below: empty where not stated
    std::optional<double> diameter_mm;
    std::optional<double> bed_mm;
    std::optional<double> hold_up_ml;
    std::optional<double> outside_ml;
    fractions::SeenBand band;
    std::string date;
    std::string source;
    std::string note;
    Where where; ///< of the column's name
};

struct ColumnRunTable {
    std::vector<ColumnRunRow> rows;
    std::vector<std::string> notes; ///< on how the table was read
};

/// Reads where bands left a column: column, compound, Rf (on a plate in the same eluent), start_mL,
/// end_mL; optional peak_mL, amount_mg, load_mL, run, date, source, note, and the column's size as
/// silica_g, or diameter_mm and bed_mm, with column_volume_mL and outside_mL if they were measured.
/// Throws InputError for an R_F at start or front, a band that ends before it starts or whose peak
/// lies outside it, sizes that are not above 0, and a diameter without a bed.
[[nodiscard]] ColumnRunTable read_column_runs(std::istream &in, const std::string &file,
                                              const std::vector<ColumnAlias> &aliases);

} // namespace cospot

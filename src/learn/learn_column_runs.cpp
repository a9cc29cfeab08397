#include "learn/learn_column_runs.h"

#include "library/column_runs.h"
#include "shared/number.h"
#include "shared/text.h"

#include <optional>
#include <string>

namespace cospot {

namespace {

using library::PackedColumn;

PackedColumn column_in(const ColumnRunRow &row) {
    return {{},         row.column,     row.silica_g,  row.diameter_mm,
            row.bed_mm, row.hold_up_ml, row.outside_ml};
}

library::ColumnBand band_in(const ColumnRunRow &row) {
    const fractions::SeenBand &band = row.band;
    return {band.run,    row.date,       band.compound, band.rf,    band.start_ml, band.peak_ml,
            band.end_ml, band.amount_mg, band.load_ml,  row.source, row.note};
}

bool has_size(const PackedColumn &column) {
    return column.silica_g || column.diameter_mm || column.hold_up_ml;
}

/// A size that the row states must be the stored one; what it leaves out is not asked.
void check_size(const ColumnRunRow &row, const PackedColumn &column, const PackedColumn &stored) {
    const auto check = [&](const char *field, std::optional<double> PackedColumn::*size) {
        const auto &stated = column.*size;
        const auto &known = stored.*size;
        if (stated && stated != known) {
            Where where = row.where;
            where.column = field;
            throw InputError(where, exact_text(*stated),
                             known ? exact_text(*known) + ", as column " + in_quotes(stored.name) +
                                         " has in the library, or another name"
                                   : "nothing, as column " + in_quotes(stored.name) +
                                         " has in the library, or another name");
        }
    };
    check("silica_g", &PackedColumn::silica_g);
    check("diameter_mm", &PackedColumn::diameter_mm);
    check("bed_mm", &PackedColumn::bed_mm);
    check("column_volume_mL", &PackedColumn::hold_up_ml);
    check("outside_mL", &PackedColumn::outside_ml);
}

library::ColumnId column_of(library::Database &database, const ColumnRunRow &row,
                            library::ChangeId change, LearnSummary &summary) {
    const PackedColumn column = column_in(row);
    if (const auto stored = library::find_column(database, column.name)) {
        check_size(row, column, *stored);
        return stored->id;
    }
    if (!has_size(column)) {
        throw InputError(row.where, in_quotes(column.name) + " without a size",
                         "silica_g, or diameter_mm and bed_mm, or column_volume_mL of a column "
                         "that the library does not hold yet");
    }
    ++summary.columns_added;
    return library::add_column(database, column, change);
}

} // namespace

void learn_column_runs(library::Database &database, const std::vector<ColumnRunRow> &rows,
                       library::ChangeId change, LearnSummary &summary) {
    for (const ColumnRunRow &row : rows) {
        const library::ColumnId column = column_of(database, row, change, summary);
        const bool is_new = library::add_band(database, column, band_in(row), change);
        ++(is_new ? summary.bands_added : summary.bands_known);
    }
}

} // namespace cospot

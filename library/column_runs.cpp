#include "library/column_runs.h"

namespace cospot::library {

namespace {

#define COLUMN_FIELDS "id, name, silica_g, diameter_mm, bed_mm, hold_up_ml, outside_ml"

PackedColumn read_column(const Statement &row) {
    return {row.id<ColumnId>(0),  row.text(1),          row.optional_real(2), row.optional_real(3),
            row.optional_real(4), row.optional_real(5), row.optional_real(6)};
}

Statement &bind_band(Statement &statement, ColumnId column, const ColumnBand &band) {
    return statement.bind(1, column)
        .bind(2, band.run)
        .bind(3, band.date)
        .bind(4, band.compound)
        .bind(5, band.rf)
        .bind(6, band.start_ml)
        .bind(7, band.peak_ml)
        .bind(8, band.end_ml)
        .bind(9, band.amount_mg)
        .bind(10, band.load_ml)
        .bind(11, band.source)
        .bind(12, band.note);
}

} // namespace

std::optional<PackedColumn> find_column(Database &database, std::string_view name) {
    Statement &query =
        database.cached("SELECT " COLUMN_FIELDS " FROM packed_column WHERE name = ?1");
    std::optional<PackedColumn> column;
    if (query.bind(1, name).step()) {
        column = read_column(query);
    }
    query.reset();
    return column;
}

std::vector<PackedColumn> all_columns(Database &database) {
    Statement query = database.prepare("SELECT " COLUMN_FIELDS " FROM packed_column ORDER BY name");
    std::vector<PackedColumn> columns;
    while (query.step()) {
        columns.push_back(read_column(query));
    }
    return columns;
}

ColumnId add_column(Database &database, const PackedColumn &column, ChangeId change) {
    database
        .cached("INSERT INTO packed_column (name, silica_g, diameter_mm, bed_mm, hold_up_ml, "
                "outside_ml, change_id) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)")
        .bind(1, column.name)
        .bind(2, column.silica_g)
        .bind(3, column.diameter_mm)
        .bind(4, column.bed_mm)
        .bind(5, column.hold_up_ml)
        .bind(6, column.outside_ml)
        .bind(7, change)
        .run();
    return database.last_insert_id<ColumnId>();
}

bool add_band(Database &database, ColumnId column, const ColumnBand &band, ChangeId change) {
    Statement &query = database.cached(
        "SELECT 1 FROM column_band WHERE column_id = ?1 AND run = ?2 AND date = ?3 AND "
        "compound = ?4 AND rf = ?5 AND start_ml = ?6 AND peak_ml IS ?7 AND end_ml = ?8 AND "
        "amount_mg IS ?9 AND load_ml = ?10 AND source = ?11 AND note = ?12");
    const bool is_held = bind_band(query, column, band).step();
    query.reset();
    if (is_held) {
        return false;
    }
    bind_band(database.cached("INSERT INTO column_band (column_id, run, date, compound, rf, "
                              "start_ml, peak_ml, end_ml, amount_mg, load_ml, source, note, "
                              "change_id) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, "
                              "?12, ?13)"),
              column, band)
        .bind(13, change)
        .run();
    return true;
}

std::vector<ColumnBand> bands_of_column(Database &database, ColumnId column) {
    Statement &query = database.cached(
        "SELECT run, date, compound, rf, start_ml, peak_ml, end_ml, amount_mg, load_ml, source, "
        "note FROM column_band WHERE column_id = ?1 ORDER BY id");
    query.bind(1, column);
    std::vector<ColumnBand> bands;
    while (query.step()) {
        bands.push_back({query.text(0), query.text(1), query.text(2), query.real(3), query.real(4),
                         query.optional_real(5), query.real(6), query.optional_real(7),
                         query.real(8), query.text(9), query.text(10)});
    }
    query.reset();
    return bands;
}

bool is_same_bed(const PackedColumn &a, const PackedColumn &b) {
    return a.silica_g == b.silica_g && a.diameter_mm == b.diameter_mm && a.bed_mm == b.bed_mm &&
           a.hold_up_ml == b.hold_up_ml && a.outside_ml == b.outside_ml;
}

} // namespace cospot::library

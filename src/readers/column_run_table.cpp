#include "readers/column_run_table.h"

#include "readers/date_column.h"
#include "shared/number.h"
#include "shared/text.h"

#include <limits>
#include <optional>
#include <utility>

namespace cospot {

namespace {

constexpr double kLargest = 1e6;

/// A size, volume or mass above 0, or nothing.
std::optional<double> size_in(const TableReader &table, const char *column) {
    const std::string expected = std::string(column) + " above 0, up to 1000000";
    const auto value = table.optional_number(column, expected);
    if (value && !(*value > 0.0 && *value <= kLargest)) {
        throw InputError(table.where(column), exact_text(*value), expected);
    }
    return value;
}

/// Where it is missing, which is a fault of the row, NaN.
double required_size_in(const TableReader &table, const char *column, const char *what) {
    (void)table.required_text(column, what);
    return size_in(table, column).value_or(std::numeric_limits<double>::quiet_NaN());
}

void read_column(const TableReader &table, ColumnRunRow &row) {
    row.column = table.required_text("column", "the name of your column");
    row.where = table.where("column");
    row.silica_g = size_in(table, "silica_g");
    row.diameter_mm = size_in(table, "diameter_mm");
    row.bed_mm = size_in(table, "bed_mm");
    row.hold_up_ml = size_in(table, "column_volume_mL");
    row.outside_ml = size_in(table, "outside_mL");
    if (row.diameter_mm.has_value() != row.bed_mm.has_value()) {
        throw InputError(table.where(row.bed_mm ? "diameter_mm" : "bed_mm"), "nothing",
                         "diameter_mm and bed_mm together");
    }
    if (row.hold_up_ml && row.outside_ml && *row.outside_ml >= *row.hold_up_ml) {
        throw InputError(table.where("outside_mL"), exact_text(*row.outside_ml),
                         "less than column_volume_mL");
    }
}

fractions::SeenBand read_band(const TableReader &table) {
    fractions::SeenBand band;
    band.run = table.text("run");
    band.compound = table.required_text("compound", "the name of the compound");
    const std::string expected = "an R_F above 0 and below 1: at start and front it tells nothing";
    band.rf = table.number("Rf", expected);
    if (!(band.rf > 0.0 && band.rf < 1.0)) {
        throw InputError(table.where("Rf"), exact_text(band.rf), expected);
    }
    band.start_ml = required_size_in(table, "start_mL", "where the band started, mL");
    band.end_ml = required_size_in(table, "end_mL", "where the band ended, mL");
    if (band.end_ml <= band.start_ml) {
        throw InputError(table.where("end_mL"), exact_text(band.end_ml), "more than start_mL");
    }
    band.peak_ml = size_in(table, "peak_mL");
    if (band.peak_ml && (*band.peak_ml <= band.start_ml || *band.peak_ml >= band.end_ml)) {
        throw InputError(table.where("peak_mL"), exact_text(*band.peak_ml),
                         "a volume between start_mL and end_mL");
    }
    band.amount_mg = size_in(table, "amount_mg");
    band.load_ml = table.optional_amount("load_mL", "a volume in mL").value_or(0.0);
    return band;
}

ColumnRunRow read_column_row(const TableReader &table) {
    ColumnRunRow row;
    read_column(table, row);
    row.band = read_band(table);
    row.date = read_past_date(table);
    row.source = table.text("source");
    row.note = table.text("note");
    return row;
}

} // namespace

ColumnRunTable read_column_runs(std::istream &in, const std::string &file,
                                const std::vector<ColumnAlias> &aliases) {
    TableReader table(in, file,
                      {{"column", true},
                       {"compound", true},
                       {"Rf", true},
                       {"start_mL", true},
                       {"end_mL", true},
                       {"peak_mL", false},
                       {"silica_g", false},
                       {"diameter_mm", false},
                       {"bed_mm", false},
                       {"column_volume_mL", false},
                       {"outside_mL", false},
                       {"amount_mg", false},
                       {"load_mL", false},
                       {"run", false},
                       {"date", false},
                       {"source", false},
                       {"note", false}},
                      aliases);
    ColumnRunTable result;
    for_each_row(table, [&] { result.rows.push_back(read_column_row(table)); });
    state_dates(result.rows, [](const ColumnRunRow &row) {
        return row.band.run.empty() ? std::nullopt
                                    : std::optional(std::pair(row.column, row.band.run));
    });
    result.notes = table.notes();
    return result;
}

} // namespace cospot

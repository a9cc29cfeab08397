#include "readers/retention_series_table.h"

#include "quantities/peak_shape.h"
#include "quantities/retention_factor.h"
#include "readers/instrument_number.h"
#include "shared/number.h"
#include "shared/quantity.h"
#include "shared/table.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <map>

namespace cospot {

namespace {

using resolve::MeasuredCompound;
using resolve::RetentionPoint;

/// Which of two columns the header has; InputError unless it is one of them.
const char *one_of(const TableReader &table, const char *a, const char *b) {
    if (table.has(a) == table.has(b)) {
        throw InputError(
            {table.file(), table.line(), ""},
            fmt::format("a header with {} {} and {}", table.has(a) ? "both" : "neither", a, b),
            fmt::format("a column {} or a column {}", a, b));
    }
    return table.has(a) ? a : b;
}

double fraction_of_row(const TableReader &table, const char *column) {
    const bool is_percent = std::string_view(column) == "percent";
    const double most = is_percent ? 100.0 : 1.0;
    const std::string expected =
        is_percent ? "volume per cent of the modifier from 0 to 100"
                   : "a volume fraction of the modifier from 0 to 1 (per cent go into a column "
                     "percent)";
    const double value = table.number(column, expected);
    if (value < 0.0 || value > most) {
        throw InputError(table.where(column), exact_text(value), expected);
    }
    return value / most;
}

double retention_factor_of_row(const TableReader &table, const char *column, double hold_up_min) {
    if (std::string_view(column) == "k") {
        const double k = table.number("k", "a retention factor");
        check_physical(Quantity::k, k, table.where("k"));
        if (k == 0.0) {
            throw InputError(table.where("k"), exact_text(k), "a retention factor above 0");
        }
        return k;
    }
    const double time = table.number("tR", "a retention time in min");
    check_physical(Quantity::tR, time, table.where("tR"));
    check_of_instrument(table, "tR", time);
    if (time <= hold_up_min) {
        throw InputError(
            table.where("tR"), exact_text(time) + " min",
            fmt::format("a time above the hold-up time of {} min", exact_text(hold_up_min)));
    }
    return quantities::retention_factor(time, hold_up_min);
}

std::optional<double> plate_number_of_row(const TableReader &table, double k, double hold_up_min) {
    const auto width = table.optional_number("width_half", "a width at half height in min");
    if (!width) {
        return std::nullopt;
    }
    check_of_instrument(table, "width_half", width);
    if (*width <= 0.0) {
        throw InputError(table.where("width_half"), exact_text(*width), "a width above 0 min");
    }
    return quantities::plate_number_from_half_width(hold_up_min * (1.0 + k), *width);
}

/// A compound with the line on which it was first read.
struct Row {
    MeasuredCompound compound;
    std::size_t line = 0;
};

/// The compounds in the order of the file.
class Rows {
public:
    /// The compound of the present row, the case of its name ignored.
    MeasuredCompound &compound_of(const TableReader &table) {
        const std::string name(table.required_text("compound", "the name of a compound"));
        const auto [known, is_new] = positions_.try_emplace(lower_ascii(name), rows_.size());
        if (is_new) {
            rows_.push_back({{name, {}, {}}, table.line()});
        }
        return rows_[known->second].compound;
    }

    [[nodiscard]] std::vector<Row> &all() { return rows_; }

private:
    std::vector<Row> rows_;
    std::map<std::string, std::size_t> positions_; ///< by name in lower case
};

void add_point(const TableReader &table, MeasuredCompound &compound, const RetentionPoint &point,
               const char *column) {
    for (const RetentionPoint &held : compound.points) {
        if (held.fraction == point.fraction) {
            if (held.k != point.k) {
                throw InputError(table.where(column),
                                 fmt::format("another value for {} at the fraction {}",
                                             in_quotes(compound.name), exact_text(point.fraction)),
                                 fmt::format("one value a compound and fraction (k {:.4g} was "
                                             "read above)",
                                             held.k));
            }
            return;
        }
    }
    compound.points.push_back(point);
}

void check_fractions(const std::vector<Row> &rows, const TableReader &table, const char *column) {
    if (rows.empty()) {
        throw InputError({table.file(), table.line(), ""}, "a header without rows",
                         "two rows or more a compound");
    }
    for (const Row &row : rows) {
        if (resolve::fraction_span(row.compound.points) < resolve::kLeastSpan) {
            throw InputError(
                {table.file(), row.line, column},
                fmt::format("one fraction only for {}", in_quotes(row.compound.name)),
                fmt::format("two fractions or more for each compound, {:g} apart or more",
                            resolve::kLeastSpan));
        }
    }
}

} // namespace

RetentionSeries read_retention_series(std::istream &in, const std::string &file,
                                      std::optional<double> hold_up_min,
                                      const std::vector<ColumnAlias> &aliases) {
    TableReader table(in, file,
                      {{"compound", true},
                       {"fraction", false},
                       {"percent", false},
                       {"k", false},
                       {"tR", false, "min"},
                       {"width_half", false, "min"}},
                      aliases);
    const char *composition = one_of(table, "fraction", "percent");
    const char *retention = one_of(table, "k", "tR");
    for (const char *column : {"tR", "width_half"}) {
        if (table.has(column) && !hold_up_min) {
            throw InputError({file, table.line(), column}, "times without a hold-up time",
                             "--hold-up MIN: the time of what is not retained");
        }
    }
    RetentionSeries series;
    Rows rows;
    for_each_row(table, [&] {
        MeasuredCompound &compound = rows.compound_of(table);
        const double fraction = fraction_of_row(table, composition);
        const double k = retention_factor_of_row(table, retention, hold_up_min.value_or(0.0));
        add_point(table, compound, {fraction, k}, retention);
        if (const auto plates = plate_number_of_row(table, k, hold_up_min.value_or(0.0))) {
            series.plate_numbers.push_back(*plates);
        }
    });
    series.notes = table.notes();
    check_fractions(rows.all(), table, composition);
    for (Row &row : rows.all()) {
        series.compounds.push_back(std::move(row.compound));
    }
    return series;
}

} // namespace cospot

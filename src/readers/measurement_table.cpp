#include "readers/measurement_table.h"

#include "readers/date_column.h"
#include "readers/instrument_number.h"
#include "readers/plate_table.h"
#include "readers/quantity_column.h"
#include "shared/number.h"
#include "shared/registry_number.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <utility>

namespace cospot {

namespace {

/// A value as uncertain as the whole scale of R_F, or as itself, says nothing.
std::optional<double> read_uncertainty(const TableReader &table, Quantity quantity, double value) {
    const auto uncertainty = table.optional_number("uncertainty", "a standard uncertainty");
    const double most = quantity == Quantity::Rf ? 0.5 : 1.0 + value;
    if (uncertainty && (*uncertainty <= 0.0 || *uncertainty > most)) {
        throw InputError(table.where("uncertainty"), exact_text(*uncertainty),
                         fmt::format("a standard uncertainty above 0, at most {:g} of {} {}", most,
                                     to_text(quantity), exact_text(value)));
    }
    return uncertainty;
}

constexpr Quantity kQuantities[]{Quantity::Rf, Quantity::k,   Quantity::RI,
                                 Quantity::tR, Quantity::RRT, Quantity::r};

std::vector<TableColumn> measurement_columns() {
    std::vector<TableColumn> columns{{"compound", true},
                                     {"smiles"},
                                     {"system", true},
                                     {"quantity"},
                                     {"value"},
                                     {"cas"},
                                     {"run"},
                                     {"date"},
                                     {"operator"},
                                     {"instrument"},
                                     {"source"},
                                     {"uncertainty"},
                                     {"note"}};
    for (const Quantity quantity : kQuantities) {
        columns.push_back(
            {std::string(to_text(quantity)), false, quantity == Quantity::tR ? "min" : ""});
    }
    return columns;
}

} // namespace

std::vector<std::vector<std::string>> value_columns() {
    std::vector<std::vector<std::string>> columns{{"quantity", "value"}};
    for (const Quantity quantity : kQuantities) {
        columns.push_back({std::string(to_text(quantity))});
    }
    return columns;
}

namespace {

/// With a quantity of the command line, rows need not name it.
std::vector<std::vector<std::string>> needed_columns(bool has_quantity) {
    std::vector<std::vector<std::string>> columns = value_columns();
    if (has_quantity) {
        columns.front() = {"value"};
    }
    return columns;
}

} // namespace

void check_visible(std::string_view name, const Where &where) {
    if (!is_printable(name)) {
        throw InputError(where, in_quotes(name),
                         "a name without characters that cannot be seen (retype it)");
    }
}

void check_compound_name(std::string_view name, const Where &where) {
    check_visible(name, where);
    if (equal_ignoring_case(name, "unlisted") || equal_ignoring_case(name, "other")) {
        throw InputError(where, in_quotes(name), "the name of a compound");
    }
}

MeasurementTable::MeasurementTable(std::istream &in, std::string file,
                                   const std::vector<ColumnAlias> &aliases,
                                   std::optional<Quantity> quantity)
    : table_(in, std::move(file), measurement_columns(), aliases,
             needed_columns(quantity.has_value())),
      quantity_(quantity) {
    choose_column();
}

/// The values stand in the column value where there is one, else in the one column that is named
/// after a quantity.
void MeasurementTable::choose_column() {
    std::vector<std::string> named;
    for (const Quantity quantity : kQuantities) {
        if (table_.has(to_text(quantity))) {
            named.emplace_back(to_text(quantity));
        }
    }
    if (table_.has("value")) {
        unused_ = std::move(named);
        return;
    }
    if (named.size() > 1) {
        throw InputError({table_.file(), table_.line(), ""},
                         fmt::format("the columns {}", fmt::join(named, " and ")),
                         "one column of values, or a row for each value, with quantity and value");
    }
    value_column_ = named.front();
    const auto of_column = quantity_from_text(value_column_);
    if (quantity_ && quantity_ != of_column) {
        throw InputError(
            {table_.file(), table_.line(), value_column_},
            fmt::format("a column {} with --quantity {}", value_column_, to_text(*quantity_)),
            "one of them, or a column value");
    }
    quantity_ = of_column;
}

std::vector<std::string> MeasurementTable::notes() const {
    std::vector<std::string> notes = table_.notes();
    for (const std::string &column : unused_) {
        notes.push_back(
            fmt::format("column {} is not used: the values stand in column value", column));
    }
    if (!table_.rough_lines().empty()) {
        notes.push_back(rough_words(value_column_, table_.rough_lines()));
    }
    if (!table_.has("quantity") && quantity_) {
        notes.push_back(fmt::format("the values of column {} are read as {}", value_column_,
                                    to_text(*quantity_)));
    }
    return notes;
}

Quantity MeasurementTable::quantity_of_row() const {
    return quantity_ && table_.text("quantity").empty() ? *quantity_ : read_quantity(table_);
}

bool MeasurementTable::next(MeasurementRow &row) {
    if (!table_.next()) {
        return false;
    }
    row.where = {table_.file(), table_.line(), ""};
    table_.read_row([&] { read(row); });
    return true;
}

void MeasurementTable::read(MeasurementRow &row) const {
    row.compound = table_.required_text("compound", "the name of the compound");
    table_.keep_fault([&] { check_compound_name(row.compound, row.at("compound")); });
    row.smiles = table_.text("smiles");
    row.cas = table_.text("cas");
    if (!row.cas.empty()) {
        table_.keep_fault([&] { check_registry_number(row.cas, row.at("cas")); });
    }
    row.system = table_.required_text("system", "the name of a system");
    table_.keep_fault([&] { check_visible(row.system, row.at("system")); });
    row.quantity = quantity_of_row();
    const bool is_rf = row.quantity == Quantity::Rf;
    row.value = is_rf ? table_.reading(value_column_, "a number")
                      : table_.number(value_column_, "a number");
    table_.keep_fault(
        [&] { check_physical(row.quantity, row.value, table_.where(value_column_)); });
    table_.keep_fault([&] { row.uncertainty = read_uncertainty(table_, row.quantity, row.value); });
    if (is_rf && !row.uncertainty && table_.is_rough(value_column_)) {
        row.uncertainty = kRoughFactor * kNotedRfError;
    }
    row.run = table_.text("run");
    row.date = read_past_date(table_);
    row.operator_name = table_.text("operator");
    row.instrument = table_.text("instrument");
    row.source = table_.text("source");
    row.note = table_.text("note");
}

} // namespace cospot

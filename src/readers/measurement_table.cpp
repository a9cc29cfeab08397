#include "readers/measurement_table.h"

#include "readers/cas_column.h"
#include "readers/date_column.h"
#include "readers/instrument_number.h"
#include "readers/plate_table.h"
#include "readers/quantity_column.h"
#include "shared/number.h"
#include "shared/text.h"
#include "shared/usual_headers.h"

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
                                     {"system"},
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
                                   std::optional<Quantity> quantity,
                                   std::optional<std::string> system)
    : table_(in, std::move(file), measurement_columns(), aliases,
             needed_columns(quantity.has_value())),
      quantity_(quantity), system_(std::move(system)) {
    check_system();
    choose_column();
}

/// Rows or the command line must say on which system their values were measured.
void MeasurementTable::check_system() const {
    if (system_ || table_.has("system")) {
        return;
    }
    const std::string maps = proposed_maps(table_.header(), {"system"});
    throw InputError({table_.file(), table_.line(), "system"}, "a header without it",
                     "the system of each value, or --system NAME for all values of the table" +
                         (maps.empty() ? "" : "; perhaps " + maps));
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

/// The system of the row, else that of the command line; the two must not contradict each other.
std::string MeasurementTable::system_of_row() const {
    if (!system_) {
        return std::string(table_.required_text("system", "the name of a system"));
    }
    const std::string_view stated = table_.text("system");
    if (!stated.empty() && !equal_ignoring_case(stated, *system_)) {
        table_.add_fault({table_.where("system"), in_quotes(stated),
                          in_quotes(*system_) + ", which --system names, or the table alone"});
    }
    return *system_;
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
    row.cas = read_registry_number(table_);
    row.system = system_of_row();
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

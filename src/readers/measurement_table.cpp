#include "readers/measurement_table.h"

#include "readers/date_column.h"
#include "readers/instrument_number.h"
#include "readers/quantity_column.h"
#include "shared/number.h"
#include "shared/registry_number.h"
#include "shared/text.h"

#include <fmt/format.h>

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
                                   const std::vector<ColumnAlias> &aliases)
    : table_(in, std::move(file),
             {{"compound", true},
              {"smiles", true},
              {"system", true},
              {"quantity", true},
              {"value", true},
              {"cas", false},
              {"run", false},
              {"date", false},
              {"operator", false},
              {"instrument", false},
              {"source", false},
              {"uncertainty", false},
              {"note", false}},
             aliases) {}

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
    row.quantity = read_quantity(table_);
    row.value = table_.number("value", "a number");
    table_.keep_fault([&] { check_physical(row.quantity, row.value, row.at("value")); });
    table_.keep_fault([&] { row.uncertainty = read_uncertainty(table_, row.quantity, row.value); });
    row.run = table_.text("run");
    row.date = read_past_date(table_);
    row.operator_name = table_.text("operator");
    row.instrument = table_.text("instrument");
    row.source = table_.text("source");
    row.note = table_.text("note");
}

} // namespace cospot

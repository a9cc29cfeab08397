#include "readers/measurement_table.h"

#include "readers/quantity_column.h"
#include "shared/date.h"
#include "shared/number.h"
#include "shared/registry_number.h"
#include "shared/text.h"

#include <utility>

namespace cospot {

namespace {

void check_name(const TableReader &table, std::string_view name) {
    // These two words have a meaning of their own in results.
    if (equal_ignoring_case(name, "unlisted") || equal_ignoring_case(name, "other")) {
        throw InputError(table.where("compound"), in_quotes(name), "the name of a compound");
    }
}

} // namespace

MeasurementTable::MeasurementTable(std::istream &in, std::string file)
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
              {"note", false}}) {}

std::optional<MeasurementRow> MeasurementTable::next() {
    if (!table_.next()) {
        return std::nullopt;
    }
    MeasurementRow row;
    row.compound = table_.required_text("compound", "the name of the compound");
    check_name(table_, row.compound);
    row.smiles = table_.text("smiles");
    row.cas = table_.text("cas");
    if (!row.cas.empty()) {
        check_registry_number(row.cas, table_.where("cas"));
    }
    row.system = table_.required_text("system", "the name of a system");
    row.quantity = read_quantity(table_);
    row.value = table_.number("value", "a number");
    check_physical(row.quantity, row.value, table_.where("value"));
    row.uncertainty = table_.optional_number("uncertainty", "a standard uncertainty");
    if (row.uncertainty && *row.uncertainty <= 0.0) {
        throw InputError(table_.where("uncertainty"), exact_text(*row.uncertainty),
                         "a standard uncertainty above 0");
    }
    row.run = table_.text("run");
    if (!table_.text("date").empty()) {
        row.date = parse_date(table_.text("date"), table_.where("date"));
    }
    row.operator_name = table_.text("operator");
    row.instrument = table_.text("instrument");
    row.source = table_.text("source");
    row.note = table_.text("note");
    return row;
}

} // namespace cospot

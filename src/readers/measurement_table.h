#pragma once

#include "shared/quantity.h"
#include "shared/table.h"

#include <iosfwd>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// A value measured for a known compound, as the user states it.
struct MeasurementRow {
    std::string compound;
    std::string smiles; ///< empty: the library knows the name
    std::string cas;
    std::string system;
    Quantity quantity = Quantity::Rf;
    double value = 0.0; ///< in the unit of the quantity
    std::optional<double> uncertainty;
    std::string run;
    std::string date;
    std::string operator_name;
    std::string instrument;
    std::string source;
    std::string note;
    bool is_label = false; ///< the compound is the label of a standard on a plate or trace
    Where where;           ///< file and line

    /// The place of one column of the row.
    [[nodiscard]] Where at(const char *column) const { return {where.file, where.line, column}; }
};

/// The sets of columns of which one holds the values: quantity and value, or a column that is named
/// after its quantity.
[[nodiscard]] std::vector<std::vector<std::string>> value_columns();

/// The long table for `learn` (columns compound, system, and quantity and value or one of Rf, k,
/// RI, tR, RRT, r; optional smiles,cas,run,date,operator,instrument,source,uncertainty,note), read
/// row by row so that its length does not matter. Throws InputError for impossible values, dates
/// and registry numbers, and for values in two columns.
class MeasurementTable {
public:
    /// `quantity` and `system` are those of values whose rows do not name them.
    MeasurementTable(std::istream &in, std::string file, const std::vector<ColumnAlias> &aliases,
                     std::optional<Quantity> quantity = std::nullopt,
                     std::optional<std::string> system = std::nullopt);

    /// Reads the next row; false at the end.
    [[nodiscard]] bool next(MeasurementRow &row);
    [[nodiscard]] const std::vector<std::string> &header() const { return table_.header(); }
    [[nodiscard]] const std::vector<std::string> &fields() const { return table_.fields(); }
    [[nodiscard]] std::vector<std::string> notes() const;

private:
    void check_system() const;
    void choose_column();
    void read(MeasurementRow &row) const;
    [[nodiscard]] Quantity quantity_of_row() const;
    [[nodiscard]] std::string system_of_row() const;

    TableReader table_;
    std::optional<Quantity> quantity_; ///< of rows that do not name theirs
    std::optional<std::string> system_;
    std::string value_column_ = "value";
    std::vector<std::string> unused_; ///< columns named after quantities
};

/// Throws InputError for a new name with characters that nobody sees.
void check_visible(std::string_view name, const Where &where);

/// The same, and for a compound named by a word that results use for something else.
void check_compound_name(std::string_view name, const Where &where);

} // namespace cospot

#pragma once

#include "shared/quantity.h"
#include "shared/table.h"

#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// One row of the long table for `learn`: a value measured for a known compound. The texts live
/// until the next row is read.
struct MeasurementRow {
    std::string_view compound;
    std::string_view smiles;
    std::string_view cas;
    std::string_view system;
    Quantity quantity = Quantity::Rf;
    double value = 0.0; ///< in the unit of the quantity
    std::optional<double> uncertainty;
    std::string_view run;
    std::string date;
    std::string_view operator_name;
    std::string_view instrument;
    std::string_view source;
    std::string_view note;
};

/// The long table for `learn` (columns compound,smiles,system,quantity,value, optional
/// cas,run,date,operator,instrument,source,uncertainty,note), read row by row so that its length
/// does not matter. Throws InputError for impossible values, dates and registry numbers.
class MeasurementTable {
public:
    MeasurementTable(std::istream &in, std::string file);

    /// Reads the next row; empty at the end.
    [[nodiscard]] std::optional<MeasurementRow> next();
    [[nodiscard]] Where where(std::string_view column) const { return table_.where(column); }
    [[nodiscard]] const std::vector<std::string> &unused() const noexcept {
        return table_.unused();
    }

private:
    TableReader table_;
};

} // namespace cospot

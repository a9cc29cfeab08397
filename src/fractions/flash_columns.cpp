#include "fractions/flash_columns.h"

#include "fractions/flash_column_table.h"
#include "quantities/domain.h"
#include "shared/embedded_table.h"
#include "shared/table.h"

#include <cmath>
#include <sstream>
#include <string>

namespace cospot::fractions {

namespace {

std::vector<FlashColumn> read_table(const std::string &load_column) {
    std::istringstream in{std::string(without_comments(kFlashColumnTable))};
    TableReader table(in, "flash_columns.tsv",
                      {{"diameter_mm", true},
                       {"eluent_mL", true},
                       {"load_mg_02", true},
                       {"load_mg_01", true},
                       {"fraction_mL", true}});
    std::vector<FlashColumn> rows;
    while (table.next()) {
        rows.push_back({table.number("diameter_mm", "mm"), table.number("eluent_mL", "mL"),
                        table.number(load_column, "mg"), table.number("fraction_mL", "mL")});
    }
    return rows;
}

/// Values between two rows on straight lines in a plot of logarithms; `share` is 0 at `a`.
FlashColumn between(const FlashColumn &a, const FlashColumn &b, double share) {
    const auto value = [&](double FlashColumn::*field) {
        return a.*field * std::pow(b.*field / (a.*field), share);
    };
    return {value(&FlashColumn::diameter_mm), value(&FlashColumn::eluent_ml),
            value(&FlashColumn::load_mg), value(&FlashColumn::fraction_ml)};
}

/// The row where `field` is `value`, interpolated; none outside the rows.
std::optional<FlashColumn> where(const std::vector<FlashColumn> &rows, double FlashColumn::*field,
                                 double value) {
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (rows[i].*field == value) {
            return rows[i];
        }
        if (i > 0 && rows[i - 1].*field < value && value < rows[i].*field) {
            return between(rows[i - 1], rows[i],
                           std::log(value / (rows[i - 1].*field)) /
                               std::log(rows[i].*field / (rows[i - 1].*field)));
        }
    }
    return std::nullopt;
}

} // namespace

std::vector<FlashColumn> flash_columns(double difference) {
    constexpr double rounding_slack = 1e-9; // 0.35 - 0.25 is a little less than 0.1
    quantities::require(difference >= kHardSeparation - rounding_slack, "a difference of R_F",
                        difference, "a difference of 0.1 or more, as in the table");
    return read_table(difference >= kEasySeparation - rounding_slack ? "load_mg_02" : "load_mg_01");
}

ColumnAdvice advise_column(double load_mg, double difference) {
    quantities::require(load_mg > 0.0, "a load", load_mg, "a load above 0 mg");
    const std::vector<FlashColumn> rows = flash_columns(difference);
    if (load_mg < rows.front().load_mg) {
        return {rows.front(), TablePlace::below_first_row, 1};
    }
    if (load_mg > rows.back().load_mg) {
        return {rows.back(), TablePlace::beyond_last_row,
                static_cast<std::size_t>(std::ceil(load_mg / rows.back().load_mg))};
    }
    return {where(rows, &FlashColumn::load_mg, load_mg).value(), TablePlace::on_or_between_rows, 1};
}

std::optional<FlashColumn> flash_column_of(double diameter_mm, double difference) {
    return where(flash_columns(difference), &FlashColumn::diameter_mm, diameter_mm);
}

} // namespace cospot::fractions

#include "pool/pool_fractions.h"

#include "document/cells.h"
#include "pool/pool_words.h"
#include "shared/number.h"

#include <fmt/format.h>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace cospot {

namespace {

using fractions::BandSpot;
using fractions::FractionState;

std::string what_to_do(const PoolResult &result, std::size_t fraction) {
    switch (result.pooling.states[fraction]) {
    case FractionState::no_spot:
        return "";
    case FractionState::mixed:
        return "keep apart";
    case FractionState::one_spot:
        break;
    }
    const std::size_t component = result.pooling.components_in[fraction].front();
    const bool is_single = result.pooling.components[component].one_spot.size() == 1;
    return (is_single ? "keep " : "combine ") + result.run.components[component].name;
}

std::string plates_text(const fractions::Fraction &fraction) {
    std::string text;
    for (const std::string &plate : fraction.plates) {
        text += (text.empty() ? "" : ", ") + plate;
    }
    return text;
}

/// The text of one property of each spot, divided by `divider`; nothing where no spot has it.
template <typename Text>
std::string of_spots(const PoolResult &result, std::size_t fraction,
                     std::optional<double> BandSpot::*property, std::string_view divider,
                     std::string_view where_none, Text text_of) {
    std::string text;
    bool is_known = false;
    bool is_first = true;
    for (const std::size_t component : result.pooling.components_in[fraction]) {
        const auto value = spot_in(result.run.components[component], fraction).*property;
        is_known = is_known || value;
        text += is_first ? "" : divider;
        text += value ? text_of(*value) : std::string(where_none);
        is_first = false;
    }
    return is_known ? text : "";
}

Cell measured_cell(const std::optional<double> &value) {
    return value ? Cell{amount_text(*value), value} : Cell{};
}

} // namespace

Table fractions_table(const PoolResult &result) {
    Table table{.label = "Every fraction that was looked at",
                .columns = {{"Fraction", true},
                            {"Seen"},
                            {"Rf"},
                            {"Intensity"},
                            {"Plate"},
                            {"Signal", true},
                            {"Mass, mg", true},
                            {"Volume, mL", true},
                            {"To do"}},
                .is_sortable = true};
    const auto rf_text = [](double rf) { return fmt::format("{:.2f}", rf); };
    const auto intensity_text = [](double value) { return fmt::format("{:.4g}", value); };
    for (std::size_t i = 0; i < result.run.fractions.size(); ++i) {
        const fractions::Fraction &fraction = result.run.fractions[i];
        const std::string number = std::to_string(fraction.number);
        Row row{.cells = {number_cell(fraction.number, 0), {seen_text(result, i)}}, .mark = number};
        row.cells.push_back({of_spots(result, i, &BandSpot::rf, ", ", "–", rf_text)});
        // of a trace, the intensity is the signal
        row.cells.push_back({result.run.is_trace ? ""
                                                 : of_spots(result, i, &BandSpot::intensity, ", ",
                                                            "–", intensity_text)});
        row.cells.push_back({plates_text(fraction)});
        row.cells.push_back(measured_cell(fraction.signal));
        row.cells.push_back(measured_cell(fraction.mass_mg));
        row.cells.push_back(measured_cell(fraction.volume_ml));
        row.cells.push_back({what_to_do(result, i)});
        table.rows.push_back(std::move(row));
    }
    return table;
}

DataTable fractions_data(const PoolResult &result) {
    DataTable data{{"fraction", "state", "to_do", "components", "rf", "intensity", "plates",
                    "signal", "mass_mg", "volume_mL"}};
    for (std::size_t i = 0; i < result.run.fractions.size(); ++i) {
        const fractions::Fraction &fraction = result.run.fractions[i];
        std::string names;
        for (const std::size_t component : result.pooling.components_in[i]) {
            names += (names.empty() ? "" : ";") + result.run.components[component].name;
        }
        data.rows.push_back({static_cast<std::int64_t>(fraction.number),
                             std::string(to_text(result.pooling.states[i])), what_to_do(result, i),
                             names, of_spots(result, i, &BandSpot::rf, ";", "", exact_text),
                             of_spots(result, i, &BandSpot::intensity, ";", "", exact_text),
                             plates_text(fraction), datum_of(fraction.signal),
                             datum_of(fraction.mass_mg), datum_of(fraction.volume_ml)});
    }
    return data;
}

} // namespace cospot

#include "pool/pool_fractions.h"

#include "document/html.h"
#include "report/json_cells.h"
#include "pool/pool_run.h"

#include <string_view>

namespace cospot {

namespace {

using html::escaped;

std::string what_to_do(const Json &fraction, const Json &run) {
    if (fraction.at("state") == "no spot") {
        return "";
    }
    if (fraction.at("state") == "mixed") {
        return "keep apart";
    }
    const auto name = fraction.at("spots").front().at("component").get<std::string>();
    for (const Json &pool : run.at("pools")) {
        if (pool.at("component") == name && pool.at("fractions").size() == 1) {
            return "keep " + name;
        }
    }
    return "combine " + name;
}

/// One property of the spots of a fraction, "0.62, 0.41"; nothing where no spot has it.
std::string of_spots(const Json &fraction, const char *field, std::string_view format) {
    std::string text;
    bool is_known = false;
    for (const Json &spot : fraction.at("spots")) {
        const html::Cell cell = number_cell(spot.at(field), format);
        is_known = is_known || cell.value.has_value();
        text += (text.empty() ? "" : ", ") + (cell.value ? cell.content : std::string("–"));
    }
    return is_known ? text : "";
}

std::string joined(const Json &texts) {
    std::string text;
    for (const Json &one : texts) {
        text += (text.empty() ? "" : ", ") + one.get<std::string>();
    }
    return text;
}

/// One property of all spots of a fraction, divided by semicolons.
std::string divided(const Json &spots, const char *field) {
    std::string text;
    for (std::size_t i = 0; i < spots.size(); ++i) {
        const Json &value = spots[i].at(field);
        text += i > 0 ? ";" : "";
        text += value.is_null() ? "" : value.is_string() ? value.get<std::string>() : value.dump();
    }
    return text;
}

} // namespace

std::string fractions_table(const Json &run) {
    html::Table table;
    table.caption = "Every fraction that was looked at";
    table.columns = {{"Fraction", true},
                     {"Seen"},
                     {"Rf"},
                     {"Intensity"},
                     {"Plate"},
                     {"Signal", true},
                     {"Mass, mg", true},
                     {"Volume, mL", true},
                     {"To do"}};
    table.is_sortable = true;
    for (const Json &fraction : run.at("fractions")) {
        const bool has_rf = !is_trace(run);
        table.rows.push_back({{number_cell(fraction.at("fraction"), "{:.0f}"),
                               {escaped(seen_words(fraction, is_trace(run)))},
                               {has_rf ? of_spots(fraction, "rf", "{:.2f}") : ""},
                               {has_rf ? of_spots(fraction, "intensity", "{:.4g}") : ""},
                               {escaped(joined(fraction.at("plates")))},
                               number_cell(fraction.at("signal"), "{:.4g}"),
                               number_cell(fraction.at("mass_mg"), "{:.4g}"),
                               number_cell(fraction.at("volume_mL"), "{:.4g}"),
                               {escaped(what_to_do(fraction, run))}},
                              std::to_string(fraction.at("fraction").get<int>())});
    }
    return table_html(html::without_empty_columns(table));
}

FlatTable pool_flat_table(const Json &results) {
    FlatTable table{{"fraction", "state", "to_do", "components", "rf", "intensity", "plates",
                     "signal", "mass_mg", "volume_mL"},
                    {}};
    const Json &run = *pool_objects(results).run;
    for (const Json &fraction : run.at("fractions")) {
        const Json &spots = fraction.at("spots");
        table.rows.push_back({fraction.at("fraction"), fraction.at("state"),
                              what_to_do(fraction, run), divided(spots, "component"),
                              divided(spots, "rf"), divided(spots, "intensity"),
                              joined(fraction.at("plates")), fraction.at("signal"),
                              fraction.at("mass_mg"), fraction.at("volume_mL")});
    }
    return table;
}

} // namespace cospot

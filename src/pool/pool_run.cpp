#include "pool/pool_run.h"

#include "document/html.h"
#include "drawing/fractions_picture.h"
#include "fractions/fraction.h"
#include "report/json_cells.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace cospot {

namespace {

DrawnState state_of(const Json &fraction) {
    const Json &state = fraction.at("state");
    return state == "mixed"      ? DrawnState::mixed
           : state == "one spot" ? DrawnState::one
                                 : DrawnState::none;
}

DrawnComponent drawn(const Json &component) {
    DrawnComponent result;
    result.name = component.at("component").get<std::string>();
    if (const auto rf = number_or_none_in(component, "rf")) {
        result.name += fmt::format("  Rf {:.2f}", *rf);
    }
    result.is_wanted = component.at("target").get<bool>();
    double largest = 0.0;
    for (const Json &spot : component.at("spots")) {
        largest = std::max(largest, number_or_none_in(spot, "intensity").value_or(0.0));
    }
    for (const Json &spot : component.at("spots")) {
        const auto intensity = number_or_none_in(spot, "intensity");
        result.cells.push_back(
            {spot.at("fraction").get<int>(),
             intensity && largest > 0.0 ? std::optional(*intensity / largest) : std::nullopt});
    }
    return result;
}

/// A bracket for each of the neighbourhoods of a pool.
void add_brackets(std::vector<DrawnBracket> &brackets, const Json &numbers,
                  const std::string &label) {
    for (const auto &range : fractions::ranges_of(numbers.get<std::vector<int>>())) {
        brackets.push_back({range.first, range.last, label});
    }
}

DrawnRun drawn(const PoolObjects &objects) {
    const Json &run = *objects.run;
    DrawnRun result;
    result.threshold = number_or_none_in(run, "threshold");
    for (const Json &fraction : run.at("fractions")) {
        const auto number = fraction.at("fraction").get<int>();
        result.fractions.push_back(
            {number, std::to_string(number),
             fmt::format("fraction {}: {}", number, seen_words(fraction, is_trace(run))),
             state_of(fraction), number_or_none_in(fraction, "signal")});
    }
    for (const Json *component : objects.components) {
        result.components.push_back(drawn(*component));
    }
    for (const Json &pool : run.at("pools")) {
        add_brackets(result.combine, pool.at("fractions"), pool.at("component").get<std::string>());
    }
    for (const Json &pool : run.at("mixed")) {
        std::string label;
        for (const Json &name : pool.at("components")) {
            label += (label.empty() ? "" : " + ") + name.get<std::string>();
        }
        add_brackets(result.keep_apart, pool.at("fractions"), label);
    }
    return result;
}

} // namespace

PoolObjects pool_objects(const Json &results) {
    PoolObjects objects;
    for (const Json &object : results) {
        if (object.at("record") == "pools") {
            objects.run = &object;
        } else {
            objects.components.push_back(&object);
        }
    }
    return objects;
}

bool is_trace(const Json &run) {
    return run.at("source") == "trace";
}

std::string joined_names(const Json &names) {
    std::string text;
    for (std::size_t i = 0; i < names.size(); ++i) {
        const bool is_last = i + 1 == names.size();
        text += (i == 0 ? "" : is_last ? " and " : ", ") + names[i].get<std::string>();
    }
    return text;
}

std::string seen_words(const Json &fraction, bool by_detector) {
    const Json &spots = fraction.at("spots");
    if (spots.empty()) {
        return by_detector ? "no band" : "no spot seen";
    }
    Json names = Json::array();
    for (const Json &spot : spots) {
        names.push_back(spot.at("component"));
    }
    return fmt::format("{} {}{}: {}", spots.size() == 1 ? "one" : "several",
                       by_detector ? "band" : "spot", spots.size() == 1 ? "" : "s",
                       joined_names(names));
}

std::string pool_figures(const PoolObjects &objects) {
    const DrawnRun run = drawn(objects);
    const bool by_detector = is_trace(*objects.run);
    const std::string caption = fmt::format(
        "{}Each column is a fraction: filled, one {} seen; hatched, several; empty frame, none; a "
        "dash, fractions that nobody looked at. Bars are as high as the intensity of a component "
        "within its own band, and half as high with a broken outline where none was stated; "
        "components are never to be compared by them. Brackets: fractions to combine, and (broken "
        "line) to keep apart.",
        by_detector
            ? "The curve is the detector’s signal, the broken line the level up to which it "
              "counts as nothing. "
            : "",
        by_detector ? "band" : "spot");
    const std::vector<std::string> pictures =
        fractions_pictures(run, "Fractions of the column and what was seen in them");
    std::string html;
    for (std::size_t i = 0; i < pictures.size(); ++i) {
        html += html::figure_html(pictures[i], i + 1 == pictures.size() ? caption : "");
    }
    return html;
}

} // namespace cospot

#include "report/identify_overview.h"

#include "document/html.h"
#include "report/identify_result.h"
#include "report/probability_cell.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot {

namespace {

using html::escaped;

/// What the table of all features can leave out of its rows, since it is the same for all.
struct Shared {
    bool sample = true;
    bool system = true; ///< and quantity; and no feature has several observations
    bool has_time = true;
};

Shared shared_by(const Json &results) {
    Shared shared;
    const Json *known = nullptr;
    for (const Json &result : results) {
        shared.sample = shared.sample && result.at("sample") == results.front().at("sample");
        shared.has_time = shared.has_time && result.contains("tR");
        for (const Json &observation : result.at("observations")) {
            known = known == nullptr ? &observation : known;
            shared.system = shared.system && result.at("observations").size() == 1 &&
                            observation.at("system") == known->at("system") &&
                            observation.at("quantity") == known->at("quantity");
        }
    }
    shared.system = shared.system && known != nullptr;
    if (shared.system && known->at("quantity") == "tR") {
        shared.has_time = false; // it is what was observed
    }
    return shared;
}

const Json &first_observation(const Json &results) {
    return std::find_if(results.begin(), results.end(),
                        [](const Json &result) { return !result.at("observations").empty(); })
        ->at("observations")
        .front();
}

html::Cell observed_cell(const Json &result, const Shared &shared) {
    const Json &observations = result.at("observations");
    if (!shared.system) {
        return {escaped(readings_of(result))};
    }
    if (observations.empty()) {
        return {};
    }
    const Json &only = observations.front();
    const double value = only.at("value").get<double>();
    return {escaped(shown_with_spread(only.at("quantity"), value,
                                      only.at("uncertainty").get<double>())),
            value};
}

void add_likeliest(html::Row &row, const Json &result) {
    const auto proposals = proposals_of(result);
    if (proposals.empty()) {
        row.cells.insert(row.cells.end(), {{"nothing to compare"}, {}, {}});
        return;
    }
    const Proposal &first = proposals.front();
    row.cells.insert(row.cells.end(), {{escaped(name_of(first))},
                                       probability_cell(first.probability),
                                       {escaped(is_unlisted(first) ? "none" : first.basis)}});
}

html::Row overview_row(const Json &result, std::size_t position, const Shared &shared) {
    const std::string number = std::to_string(position);
    const std::string name =
        shared.sample ? result.at("feature").get<std::string>() : feature_name(result);
    constexpr std::size_t short_name = 24;
    const bool is_short = display_width(name) <= short_name;
    html::Row row{{{number, static_cast<double>(position)},
                   {fmt::format("<a href=\"#feature-{}\"{}>{}</a>", number,
                                is_short ? " class=\"nowrap\"" : "", escaped(name))}},
                  number};
    if (shared.has_time) {
        const double time_min = result.at("tR").get<double>();
        row.cells.push_back({fmt::format("{:.3f}", time_min), time_min});
    }
    row.cells.push_back(observed_cell(result, shared));
    add_likeliest(row, result);
    row.cells.push_back(result.at("candidates").empty()
                            ? html::Cell{}
                            : probability_cell(result.at("unlisted").get<double>()));
    const std::size_t warnings = result.at("warnings").size();
    row.cells.push_back(
        {warnings > 0 ? std::to_string(warnings) : "", static_cast<double>(warnings)});
    return row;
}

} // namespace

std::string identify_overview(const Json &results) {
    const Shared shared = shared_by(results);
    html::Table table;
    table.caption = "The likeliest proposal for each feature";
    table.columns = {{"No.", true}, {"Feature"}};
    if (shared.has_time) {
        table.columns.push_back({"tR, min", true});
    }
    if (shared.system) {
        const Json &observation = first_observation(results);
        table.columns.push_back({observation.at("quantity").get<std::string>(), true});
        table.caption += ", seen on " + observation.at("system").get<std::string>();
    } else {
        table.columns.push_back({"Observed"});
    }
    table.columns.insert(
        table.columns.end(),
        {{"Likeliest"}, {"Probability", true}, {"Basis"}, {"Unlisted", true}, {"Warnings", true}});
    table.is_sortable = true;
    table.heading_column = 1;
    for (std::size_t i = 0; i < results.size(); ++i) {
        table.rows.push_back(overview_row(results[i], i + 1, shared));
    }
    return "<h2>At a glance</h2>\n" + table_html(table);
}

} // namespace cospot

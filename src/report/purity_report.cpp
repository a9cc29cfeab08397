#include "report/purity_report.h"

#include "document/html.h"
#include "drawing/trend_picture.h"
#include "report/identify_pictures.h"
#include "report/identify_result.h"
#include "report/probability_cell.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

namespace cospot {

namespace {

using html::escaped;

std::size_t count_of(const Json &sample, std::string_view verdict) {
    std::size_t count = 0;
    for (const Json &rule : sample.at("rules")) {
        count += rule.at("verdict") == verdict ? 1 : 0;
    }
    return count;
}

std::string of_rules(std::size_t count) {
    return count == 1 ? "1 rule" : fmt::format("{} rules", count);
}

/// The sample in one sentence. It never says "pure".
std::string verdict_words(const Json &sample) {
    const std::size_t failed = count_of(sample, "does not meet");
    const std::size_t open = count_of(sample, "can't be told");
    if (failed == 0 && open == 0) {
        return fmt::format("In order: {} met, as far as this run shows.",
                           of_rules(sample.at("rules").size()));
    }
    std::string words = failed > 0 ? of_rules(failed) + " not met" : "";
    if (open > 0) {
        words += (words.empty() ? "" : ", ") + of_rules(open) + " cannot be told";
    }
    return (failed > 0 ? "Not in order: " : "Open: ") + words + ".";
}

std::string badge(const std::string &verdict) {
    const char *style = verdict == "does not meet" ? "badge grave"
                        : verdict == "meets"       ? "badge"
                                                   : "badge minor";
    return fmt::format("<span class=\"{}\">{}</span>", style, escaped(verdict));
}

std::string rules_table(const Json &sample) {
    html::Table table;
    table.caption = "Rule by rule";
    table.columns = {{"Verdict"}, {"Rule"}, {"Limit"}, {"Found"}, {"Because"}};
    table.heading_column = 1;
    for (const Json &rule : sample.at("rules")) {
        const auto text = [&](const char *field) {
            return html::Cell{escaped(rule.at(field).get<std::string>())};
        };
        table.rows.push_back({{{badge(rule.at("verdict").get<std::string>())},
                               text("rule"),
                               text("limit"),
                               text("found"),
                               text("reason")}});
    }
    return table_html(table);
}

html::Cell rounded_cell(const Json &feature, const char *field, int decimals) {
    if (!feature.contains(field)) {
        return {};
    }
    const double value = feature.at(field).get<double>();
    return {fmt::format("{:.{}f}", value, decimals), value};
}

html::Cell position_cell(const Json &feature) {
    if (feature.contains("tR")) {
        return rounded_cell(feature, "tR", 3);
    }
    const Json &observations = feature.at("observations");
    if (observations.empty()) {
        return {};
    }
    const double value = observations.front().at("value").get<double>();
    return {escaped(shown_value_of(observations.front().at("quantity"), value)), value};
}

std::string identity_words(const Json &feature) {
    return feature.at("role") == "blank" ? "in the blank too"
                                         : feature.at("identity").at("name").get<std::string>();
}

html::Cell identity_probability(const Json &feature) {
    const Json &probability = feature.at("identity").at("probability");
    return probability.is_null() || feature.at("role") == "blank"
               ? html::Cell{}
               : probability_cell(probability.get<double>());
}

/// Warnings, and the features that each is about; in the order of the features.
std::vector<std::pair<std::string, std::vector<std::string>>> warnings_of(const Json &features) {
    std::vector<std::pair<std::string, std::vector<std::string>>> found;
    for (const Json &feature : features) {
        for (const Json &warning : feature.at("warnings")) {
            const auto text = warning.get<std::string>();
            auto known = std::find_if(found.begin(), found.end(),
                                      [&](const auto &entry) { return entry.first == text; });
            if (known == found.end()) {
                known = found.insert(found.end(), {text, {}});
            }
            known->second.push_back(feature.at("feature").get<std::string>());
        }
    }
    return found;
}

/// Each warning once, after the table.
std::string warnings_html(const Json &features, bool is_chromatogram) {
    std::string items;
    for (const auto &[warning, which] : warnings_of(features)) {
        items += fmt::format("<li>{} {}: {}</li>",
                             is_chromatogram ? (which.size() == 1 ? "Peak" : "Peaks")
                                             : (which.size() == 1 ? "Spot" : "Spots"),
                             escaped(fmt::to_string(fmt::join(which, ", "))), escaped(warning));
    }
    return items.empty() ? "" : "<ul>" + items + "</ul>";
}

/// What is to be done, and the response factor, each on a line of its own.
std::string remarks_html(const Json &feature) {
    std::string words;
    for (const Json &action : feature.at("actions")) {
        words += (words.empty() ? "" : "; ") + escaped(action.get<std::string>());
    }
    if (feature.value("response_factor_basis", "") == "library") {
        words += fmt::format("{}response factor {:g}", words.empty() ? "" : "<br>",
                             feature.at("response_factor").get<double>());
    }
    return words;
}

html::Row feature_row(const Json &feature, std::size_t position) {
    html::Row row;
    row.key = std::to_string(position);
    row.cells = {{row.key, static_cast<double>(position)},
                 {escaped(feature.at("feature").get<std::string>())},
                 position_cell(feature),
                 rounded_cell(feature, "relative_retention", 2),
                 rounded_cell(feature, "per_cent", 3),
                 {escaped(feature.value("reported_per_cent", ""))},
                 {escaped(feature.at("role").get<std::string>())},
                 {escaped(identity_words(feature))},
                 identity_probability(feature),
                 {remarks_html(feature)}};
    return row;
}

/// "; RRT is t_R/t_R(declared), unadjusted"
std::string ratio_words(const Json &result) {
    const Json &ratio = result.at("relative_retention_is");
    return ratio.is_null() ? ""
                           : fmt::format("; {} is {}", ratio.at("symbol").get<std::string>(),
                                         ratio.at("definition").get<std::string>());
}

std::string features_table(const Json &sample) {
    const Json &features = sample.at("features");
    const bool is_chromatogram = features.front().contains("tR");
    html::Table table;
    const Json &ratio = sample.at("relative_retention_is");
    table.caption = "Every feature" + ratio_words(sample);
    table.columns = {{"No.", true},
                     {is_chromatogram ? "Peak" : "Spot"},
                     {is_chromatogram ? "tR, min" : "Rf", true},
                     {ratio.is_null() ? "Relative" : ratio.at("symbol").get<std::string>(), true},
                     {"Area %", true},
                     {"Reported", true},
                     {"Taken for"},
                     {"Likeliest"},
                     {"Probability", true},
                     {"To do"}};
    table.heading_column = 1;
    table.is_sortable = true;
    for (std::size_t i = 0; i < features.size(); ++i) {
        table.rows.push_back(feature_row(features[i], i + 1));
    }
    std::string html = table_html(table) + warnings_html(features, is_chromatogram);
    if (sample.contains("impurities_per_cent")) {
        html += fmt::format("<p>All impurities together: {:.2f} %.</p>\n",
                            sample.at("impurities_per_cent").get<double>());
    }
    const Json &disregarded = sample.at("disregarded");
    if (disregarded.at("count").get<std::size_t>() > 0) {
        html += fmt::format("<p>{} at or below the reporting threshold, disregarded: {:.2f} % "
                            "together.</p>\n",
                            disregarded.at("count").get<std::size_t>(),
                            disregarded.at("per_cent").get<double>());
    }
    return html;
}

std::string sample_html(const Json &sample, std::size_t position) {
    return fmt::format("<article id=\"sample-{}\" data-scope>\n<h2>{}, declared {}</h2>\n"
                       "<p class=\"verdict\">{}</p>\n",
                       position, escaped(sample.at("sample").get<std::string>()),
                       escaped(sample.at("declared").get<std::string>()),
                       escaped(verdict_words(sample))) +
           rules_table(sample) +
           html::list_html("What this does not show", sample.at("hidden"), "notes") +
           identify_pictures(sample.at("features"), 3) + features_table(sample) +
           html::list_html("How it was read", sample.at("notes"), "notes") + "</article>\n";
}

/// "0.21, not seen, 0.29"
std::string series_words(const Json &row) {
    std::string words;
    for (const Json &share : row.at("per_cent")) {
        words += (words.empty() ? "" : ", ") +
                 (share.is_null() ? "not seen" : fmt::format("{:.2f}", share.get<double>()));
    }
    return words;
}

html::Table trend_table(const Json &trend) {
    html::Table table;
    table.caption = "Per cent by sample" + ratio_words(trend);
    table.columns = {{"Compound"}};
    for (const Json &sample : trend.at("samples")) {
        table.columns.push_back({sample.get<std::string>(), true});
    }
    for (const Json &row : trend.at("rows")) {
        html::Row line{{{escaped(row.at("name").get<std::string>())}}};
        for (const Json &share : row.at("per_cent")) {
            line.cells.push_back(
                share.is_null()
                    ? html::Cell{"–"}
                    : html::Cell{fmt::format("{:.2f}", share.get<double>()), share.get<double>()});
        }
        table.rows.push_back(std::move(line));
    }
    return table;
}

std::string trend_html(const Json &trend) {
    std::string charts;
    for (const Json &row : trend.at("rows")) {
        std::vector<std::optional<double>> shares;
        for (const Json &share : row.at("per_cent")) {
            shares.push_back(share.is_null() ? std::nullopt : std::optional(share.get<double>()));
        }
        const auto name = row.at("name").get<std::string>();
        charts += html::figure_html(
            trend_picture(shares, name + " over the samples, per cent", series_words(row)),
            escaped(name) + ", %");
    }
    return "<h2>Over the samples</h2>\n<div class=\"multiples\">\n" + charts + "</div>\n" +
           table_html(trend_table(trend));
}

PageContent purity_page(const Report &report) {
    std::string body;
    std::size_t samples = 0;
    for (const Json &result : report.results) {
        body += result.at("kind") == "trend" ? trend_html(result) : sample_html(result, ++samples);
    }
    for (const std::string &note : report.notes) {
        body += "<p>" + escaped(note) + "</p>\n";
    }
    return {samples == 1 ? "Is the sample what it is declared to be?"
                         : "Are the samples what they are declared to be?",
            "Which peak or spot is the declared compound, what else was seen, and by which rule "
            "that is in order.",
            body};
}

Json definition_of(const Json &sample) {
    const Json &ratio = sample.at("relative_retention_is");
    return ratio.is_null() ? Json(nullptr) : ratio.at("definition");
}

/// One row a feature.
FlatTable purity_flat_table(const Json &results) {
    FlatTable table{{"sample", "declared", "feature", "role", "tR", "relative_retention",
                     "relative_retention_is", "area", "per_cent", "reported_per_cent",
                     "response_factor", "identity", "probability", "actions"},
                    {}};
    for (const Json &sample : results) {
        if (sample.at("kind") != "sample") {
            continue;
        }
        for (const Json &feature : sample.at("features")) {
            std::string actions;
            for (const Json &action : feature.at("actions")) {
                actions += (actions.empty() ? "" : "; ") + action.get<std::string>();
            }
            std::vector<Json> row{sample.at("sample"), sample.at("declared"), feature.at("feature"),
                                  feature.at("role")};
            row.push_back(feature.value("tR", Json(nullptr)));
            row.push_back(feature.value("relative_retention", Json(nullptr)));
            row.push_back(definition_of(sample));
            for (const char *field : {"area", "per_cent", "reported_per_cent", "response_factor"}) {
                row.push_back(feature.value(field, Json(nullptr)));
            }
            row.insert(row.end(), {feature.at("identity").at("name"),
                                   feature.at("identity").at("probability"), actions});
            table.rows.push_back(std::move(row));
        }
    }
    return table;
}

} // namespace

const ReportDrawing &purity_report() {
    static constexpr ReportDrawing drawing{purity_page, purity_flat_table};
    return drawing;
}

} // namespace cospot

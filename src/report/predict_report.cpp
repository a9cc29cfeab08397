#include "report/predict_report.h"

#include "report/html.h"
#include "report/identify_result.h"
#include "report/range_picture.h"
#include "report/structure_gallery.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>
#include <vector>

namespace cospot {

namespace {

using html::escaped;

constexpr double kZeroCelsius_K = 273.15;

/// The ends of the axis that all intervals of one quantity share.
struct Range {
    double low = 0.0;
    double high = 1.0;
};

/// R_F from 0 to 1; other quantities as far as the intervals on the page reach.
std::map<std::string, Range> ranges_of(const Json &results) {
    std::map<std::string, Range> ranges;
    for (const Json &result : results) {
        for (const Json &expected : result.at("retention")) {
            if (!expected.contains("low")) {
                continue;
            }
            const auto quantity = expected.at("quantity").get<std::string>();
            const double low = expected.at("low").get<double>();
            const double high = expected.at("high").get<double>();
            const auto [range, is_new] = ranges.try_emplace(quantity, Range{low, high});
            range->second.low = quantity == "Rf" ? 0.0 : std::min(range->second.low, low);
            range->second.high = quantity == "Rf" ? 1.0 : std::max(range->second.high, high);
        }
    }
    return ranges;
}

std::string shown_of(const Json &expected, const char *field) {
    return shown_value_of(expected.at("quantity"), expected.at(field).get<double>());
}

html::Row expected_row(const Json &expected, const std::map<std::string, Range> &ranges) {
    const auto quantity = expected.at("quantity").get<std::string>();
    html::Row row{{{escaped(expected.at("system").get<std::string>())}, {escaped(quantity)}}};
    if (expected.contains("refused")) {
        row.cells.insert(row.cells.end(), {{},
                                           {},
                                           {"none"},
                                           {escaped("not predicted: " +
                                                    expected.at("refused").get<std::string>())}});
        return row;
    }
    const Range &range = ranges.at(quantity);
    const std::string interval = shown_of(expected, "low") + " to " + shown_of(expected, "high");
    const bool is_measured = expected.contains("runs");
    const auto count = expected.at(is_measured ? "runs" : "compounds").get<std::size_t>();
    row.cells.push_back({shown_of(expected, "expected"), expected.at("expected").get<double>()});
    row.cells.push_back({escaped(interval)});
    row.cells.push_back({escaped(
        expected.at("basis").get<std::string>() +
        fmt::format(", {} {}{}", count, is_measured ? "run" : "compound", count == 1 ? "" : "s"))});
    row.cells.push_back(
        {range_picture(expected.at("low").get<double>(), expected.at("expected").get<double>(),
                       expected.at("high").get<double>(), range.low,
                       std::max(range.high, range.low + 1e-9), quantity + ' ' + interval)});
    return row;
}

std::string axes_words(const std::map<std::string, Range> &ranges) {
    std::string words;
    for (const auto &[quantity, range] : ranges) {
        words +=
            fmt::format("{}{} from {} to {}", words.empty() ? "" : ", ", quantity,
                        shown_value_of(quantity, range.low), shown_value_of(quantity, range.high));
    }
    return words.empty() ? words
                         : "<p><small>The axes run over " + escaped(words) +
                               ". The box holds nine of ten new values.</small></p>\n";
}

std::string retention_table(const Json &result, const std::map<std::string, Range> &ranges) {
    if (result.at("retention").empty()) {
        return "<p>The library has no system to expect retention on.</p>\n";
    }
    html::Table table;
    table.caption = "Expected retention of " + result.at("compound").get<std::string>();
    table.columns = {{"System"}, {"Quantity"}, {"Expected", true}, {"Nine of ten between"},
                     {"Basis"},  {"Interval"}};
    table.is_sortable = result.at("retention").size() > 3;
    for (const Json &expected : result.at("retention")) {
        table.rows.push_back(expected_row(expected, ranges));
    }
    return table_html(table);
}

std::string boiling_words(const Json &point) {
    if (point.at("kelvin").is_null()) {
        return "none: " + point.value("missing", std::string());
    }
    const double kelvin = point.at("kelvin").get<double>();
    const std::string error =
        point.contains("standard_error_kelvin")
            ? fmt::format(" ± {:.0f}", point.at("standard_error_kelvin").get<double>())
            : "";
    return fmt::format("{:.0f}{} K ({:.0f} °C)", kelvin, error, kelvin - kZeroCelsius_K);
}

std::string groups_words(const Json &groups) {
    std::string words;
    for (const auto &[name, count] : groups.items()) {
        words += (words.empty() ? "" : ", ") +
                 (count.get<int>() > 1 ? fmt::format("{} {}", count.get<int>(), name) : name);
    }
    return words;
}

std::string properties(const Json &result) {
    const Json &descriptors = result.at("descriptors");
    const Json &boiling = result.at("boiling_point");
    html::Table table;
    table.caption = "What the structure says";
    table.columns = {{"Property"}, {"Value"}};
    const auto add = [&](const char *name, const std::string &value) {
        table.rows.push_back({{{name}, {escaped(value)}}});
    };
    add("Formula", result.at("formula").get<std::string>());
    add("Molar mass",
        fmt::format("{:.3f} g/mol, monoisotopic {:.4f} Da", result.at("average_mass").get<double>(),
                    result.at("monoisotopic_mass").get<double>()));
    add("SMILES", result.at("smiles").get<std::string>());
    add("InChIKey", result.at("inchikey").get<std::string>());
    add("log P (Crippen)", fmt::format("{:.2f}", descriptors.at("crippen_logp").get<double>()));
    add("Polar surface", fmt::format("{:.1f} Å²", descriptors.at("tpsa").get<double>()));
    add("Functional groups", groups_words(result.at("groups")));
    add("Boiling point", boiling_words(boiling.at("model")));
    add("by Joback and Reid", boiling_words(boiling.at("joback")));
    add("by Stein and Brown", boiling_words(boiling.at("stein_brown")));
    add("Held by silica (for rank order only)",
        fmt::format("{:.1f}", result.at("silica_adsorption").at("energy").get<double>()));
    return table_html(table);
}

std::string result_html(const Json &result, std::size_t position,
                        const std::map<std::string, Range> &ranges) {
    const auto name = result.at("compound").get<std::string>();
    return fmt::format("<article id=\"compound-{}\">\n<h2>{}</h2>\n", position, escaped(name)) +
           structure_gallery({{name, result.at("smiles").get<std::string>(), ""}}) +
           retention_table(result, ranges) + properties(result) + "</article>\n";
}

PageContent page(const Report &report) {
    const auto ranges = ranges_of(report.results);
    std::string body;
    for (std::size_t i = 0; i < report.results.size(); ++i) {
        body += result_html(report.results[i], i + 1, ranges);
    }
    return {"What retention to expect",
            "From the compounds’ own values (measured), from their values in other mixtures of "
            "the same solvents (transferred), or from structure (predicted).",
            axes_words(ranges) + body};
}

/// One row a system and quantity; where nothing can be expected `refused` says why.
FlatTable flat_table(const Json &results) {
    FlatTable table{{"compound", "smiles", "inchikey"}, {}};
    const std::vector<const char *> fields{"system", "quantity", "basis",     "expected", "low",
                                           "high",   "runs",     "compounds", "refused"};
    table.columns.insert(table.columns.end(), fields.begin(), fields.end());
    for (const Json &result : results) {
        for (const Json &expected : result.at("retention")) {
            std::vector<Json> row{result.at("compound"), result.at("smiles"),
                                  result.at("inchikey")};
            for (const char *field : fields) {
                row.push_back(expected.value(field, Json(nullptr)));
            }
            table.rows.push_back(std::move(row));
        }
    }
    return table;
}

} // namespace

const ReportDrawing &predict_report() {
    static constexpr ReportDrawing drawing{page, flat_table};
    return drawing;
}

} // namespace cospot

#include "predict/predict_report.h"

#include "document/html.h"
#include "document/structure_gallery.h"
#include "drawing/range_picture.h"

#include "report/json_cells.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace cospot {

namespace {

using html::escaped;

constexpr double kCelsiusOffset_K = 273.15;

/// One axis for all intervals of a quantity on a system: values of several systems do not compare.
using Axes = std::map<std::pair<std::string, std::string>, RangeAxis>;

std::pair<std::string, std::string> axis_name(const Json &expected) {
    return {expected.at("system").get<std::string>(), expected.at("quantity").get<std::string>()};
}

/// R_F from 0 to 1; other quantities about as far as the intervals on the page reach.
Axes axes_of(const Json &results) {
    std::map<std::pair<std::string, std::string>, std::pair<double, double>> reach;
    for (const Json &result : results) {
        for (const Json &expected : result.at("retention")) {
            if (expected.contains("low")) {
                const double low = expected.at("low").get<double>();
                const double high = expected.at("high").get<double>();
                auto &[lowest, highest] =
                    reach.try_emplace(axis_name(expected), low, high).first->second;
                lowest = std::min(lowest, low);
                highest = std::max(highest, high);
            }
        }
    }
    Axes axes;
    for (const auto &[name, ends] : reach) {
        axes[name] =
            name.second == "Rf" ? RangeAxis{0.0, 1.0, 1.0} : range_axis(ends.first, ends.second);
    }
    return axes;
}

std::string shown_of(const Json &expected, const char *field) {
    return shown(quantity_from_text(text_in(expected, "quantity")).value(),
                 number_in(expected, field));
}

html::Row expected_row(const Json &expected, const Axes &axes) {
    const auto quantity = expected.at("quantity").get<std::string>();
    html::Row row{{{escaped(expected.at("system").get<std::string>())}}};
    if (expected.contains("refused")) {
        row.cells.insert(row.cells.end(), {{},
                                           {},
                                           {"none"},
                                           {escaped("not predicted: " +
                                                    expected.at("refused").get<std::string>())}});
        return row;
    }
    const std::string interval = shown_of(expected, "low") + " to " + shown_of(expected, "high");
    const bool is_measured = expected.contains("runs");
    const auto count = expected.at(is_measured ? "runs" : "compounds").get<std::size_t>();
    row.cells.push_back(
        {quantity + ' ' + shown_of(expected, "expected"), expected.at("expected").get<double>()});
    row.cells.push_back({interval});
    row.cells.push_back({escaped(
        expected.at("basis").get<std::string>() +
        fmt::format(", {} {}{}", count, is_measured ? "run" : "compound", count == 1 ? "" : "s"))});
    row.cells.push_back(
        {range_picture({expected.at("low").get<double>(), expected.at("expected").get<double>(),
                        expected.at("high").get<double>()},
                       axes.at(axis_name(expected)), quantity + ' ' + interval)});
    return row;
}

std::string retention_table(const Json &result, const Axes &axes) {
    if (result.at("retention").empty()) {
        return "<p>The library has no system to expect retention on.</p>\n";
    }
    html::Table table;
    table.caption = "Expected retention of " + result.at("compound").get<std::string>();
    table.columns = {
        {"System"}, {"Expected", true}, {"Nine of ten from … to", true}, {"Basis"}, {"Interval"}};
    table.is_sortable = result.at("retention").size() > 3;
    for (const Json &expected : result.at("retention")) {
        table.rows.push_back(expected_row(expected, axes));
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
    return fmt::format("{:.0f}{} K ({:.0f} °C)", kelvin, error, kelvin - kCelsiusOffset_K);
}

std::string groups_words(const Json &groups) {
    std::string words;
    for (const auto &[name, count] : groups.items()) {
        words += (words.empty() ? "" : ", ") +
                 (count.get<int>() > 1 ? fmt::format("{} {}", count.get<int>(), name) : name);
    }
    std::replace(words.begin(), words.end(), '_', ' ');
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
    const Json &silica = result.at("silica_adsorption");
    const int unknown = silica.at("heteroatoms_left_out").get<int>();
    add("Held by silica (for rank order only)",
        fmt::format("{:.1f}{}", silica.at("energy").get<double>(),
                    unknown > 0 ? fmt::format(", too low: {} heteroatoms not known", unknown)
                                : ""));
    return table_html(table);
}

std::string result_html(const Json &result, std::size_t position, const Axes &axes) {
    const auto name = result.at("compound").get<std::string>();
    return fmt::format("<article id=\"compound-{}\">\n<h2>{}</h2>\n<div class=\"beside\">\n",
                       position, escaped(name)) +
           structure_gallery({{name, result.at("smiles").get<std::string>(), ""}}) +
           retention_table(result, axes) + "</div>\n" + properties(result) + "</article>\n";
}

PageContent predict_page(const Report &report) {
    const Axes axes = axes_of(report.results);
    std::string body;
    for (std::size_t i = 0; i < report.results.size(); ++i) {
        body += result_html(report.results[i], i + 1, axes);
    }
    return {"What retention to expect",
            "From the compounds’ own values (measured), from their values in other mixtures of "
            "the same solvents (transferred), or from structure (predicted).",
            body};
}

/// One row a system and quantity; where nothing can be expected `refused` says why.
FlatTable predict_flat_table(const Json &results) {
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
    static constexpr ReportDrawing drawing{predict_page, predict_flat_table};
    return drawing;
}

} // namespace cospot

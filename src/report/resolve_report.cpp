#include "report/resolve_report.h"

#include "document/html.h"
#include "output/resolve_words.h"
#include "report/json_cells.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace cospot {

namespace {

using html::escaped;

html::Cell text_cell(const Json &object, const char *field) {
    return {escaped(text_in(object, field))};
}

html::Cell k_cell(const Json &object) {
    return {k_text(number_in(object, "k")), number_in(object, "k")};
}

/// The pair in alphabetic order: the same name whichever leaves first.
std::string pair_name(const Json &pair) {
    const auto names = std::minmax({pair.at(0).get<std::string>(), pair.at(1).get<std::string>()});
    return names.first + " / " + names.second;
}

std::string verdict(const Json &answer) {
    const Json &best = answer.at("best");
    if (best.is_null()) {
        return "<p class=\"verdict\">One compound: nothing is to be resolved.</p>\n";
    }
    const std::string words = "Best: " + text_in(best, "summary") + ", the critical pair.";
    return "<p class=\"verdict\">" + escaped(words) + "</p>\n";
}

/// What goes wrong or is better elsewhere.
std::vector<std::string> attention(const Json &answer) {
    std::vector<std::string> sentences = texts_in(answer, "shortfalls");
    const std::vector<std::string> warnings = texts_in(answer, "warnings");
    sentences.insert(sentences.end(), warnings.begin(), warnings.end());
    return sentences;
}

std::string figure(const Json &answer) {
    if (answer.at("best").is_null()) {
        return {};
    }
    const std::string caption = fmt::format(
        "The resolution of the pair that is resolved worst, over the volume fraction of {}, after "
        "Purnell with plate number {:.0f} ({}) for every peak. All compounds were measured from "
        "{:.3f} to {:.3f}.",
        text_in(answer, "modifier"), number_in(answer, "plate_number"),
        text_in(answer, "plate_basis"), number_in(answer, "measured_from"),
        number_in(answer, "measured_to"));
    return html::figure_html(resolution_map_picture(drawn_map(answer), MapFrame::page),
                             escaped(caption));
}

html::Row run_row(const Json &one) {
    const std::string range = one.contains("k_low") ? k_text(number_in(one, "k_low")) + "–" +
                                                          k_text(number_in(one, "k_high"))
                                                    : "not known";
    return {{text_cell(one, "compound"),
             k_cell(one),
             {range},
             number_cell(one.value("tR", Json(nullptr)), "{:.2f}"),
             number_cell(one.at("resolution_to_next"), "{:.2f}"),
             {one.at("outside_measured").get<bool>() ? "outside its measured fractions" : ""}}};
}

/// The compounds at the best fraction, and what other fractions would do.
std::string best_html(const Json &answer) {
    const Json &best = answer.at("best");
    if (best.is_null()) {
        return {};
    }
    html::Table table;
    table.caption = fmt::format("At fraction {:.3f}, first to leave first; the range holds nine of "
                                "ten new readings",
                                number_in(best, "fraction"));
    table.columns = {{"Compound"},
                     {"k", true},
                     {"Range of k", true},
                     {"tR, min", true},
                     {"Resolution to the next", true},
                     {"Remarks"}};
    for (const Json &one : best.at("order")) {
        table.rows.push_back(run_row(one));
    }
    return table_html(html::without_empty_columns(table)) +
           html::list_html("", texts_in(answer, "remarks"), "notes");
}

std::string crossings_html(const Json &answer) {
    if (answer.at("best").is_null()) {
        return {};
    }
    std::string html = "<h2>Changes of order</h2>\n";
    const Json &crossings = answer.at("crossings");
    if (crossings.empty()) {
        return html + fmt::format("<p>None between {:.3f} and {:.3f}.</p>\n",
                                  number_in(answer, "range_from"), number_in(answer, "range_to"));
    }
    html::Table table;
    table.caption = "Fractions at which two compounds leave together";
    table.columns = {{"Fraction", true}, {"Leaves first below"}, {"Leaves first above"}};
    for (const Json &crossing : crossings) {
        table.rows.push_back(
            {{number_cell(crossing.at("fraction"), "{:.3f}"), text_cell(crossing, "first_below"),
              text_cell(crossing, "first_above")}});
    }
    return html + table_html(table);
}

std::string wanted_html(const Json &answer) {
    const Json &wanted = answer.at("wanted");
    if (wanted.is_null()) {
        return {};
    }
    return "<h2>Wanted retention</h2>\n<p>" + escaped(text_in(wanted, "summary")) + "</p>\n";
}

/// First to leave first; what is not told last.
std::vector<const Json *> by_time(const Json &compounds) {
    std::vector<const Json *> order;
    for (const Json &one : compounds) {
        order.push_back(&one);
    }
    std::stable_sort(order.begin(), order.end(), [](const Json *a, const Json *b) {
        const Json &first = a->at("tR");
        const Json &second = b->at("tR");
        return !first.is_null() && (second.is_null() || first.get<double>() < second.get<double>());
    });
    return order;
}

std::string gradient_html(const Json &answer) {
    const Json &gradient = answer.at("gradient");
    if (gradient.is_null()) {
        return {};
    }
    html::Table table;
    table.caption = "Times in the gradient, first to leave first";
    table.columns = {
        {"Compound"}, {"tR, min", true}, {"Fraction as it leaves", true}, {"Leaves"}, {"Remarks"}};
    for (const Json *one : by_time(gradient.at("compounds"))) {
        const bool is_told = !one->at("tR").is_null();
        table.rows.push_back(
            {{text_cell(*one, "compound"),
              number_cell(one->at("tR"), "{:.2f}"),
              number_cell(one->at("fraction"), "{:.3f}"),
              {is_told ? text_in(*one, "stage") : ""},
              {!is_told                                  ? std::string(kLeavesTooFar)
               : one->at("outside_measured").get<bool>() ? "outside its measured fractions"
                                                         : ""}}});
    }
    return "<h2>Gradient</h2>\n<p>" + escaped(text_in(gradient, "summary")) + "</p>\n" +
           table_html(html::without_empty_columns(table));
}

html::Cell off_cell(const Json &compound) {
    const Json &factor = compound.at("worst_factor");
    if (factor.is_null()) {
        return {"exact", 0.0};
    }
    const double per_cent = 100.0 * std::abs(factor.get<double>() - 1.0);
    return {fmt::format("{:.1f} %", per_cent), per_cent};
}

std::string lines_html(const Json &answer) {
    html::Table table;
    table.caption = "The lines log k = log k_w - S φ; off by: the reading farthest from its line";
    table.columns = {{"Compound"},       {"log k_w", true}, {"S", true},     {"Measured φ", true},
                     {"Readings", true}, {"Off by", true},  {"log P", true}, {"Remarks"}};
    table.is_sortable = true;
    for (const Json &one : answer.at("compounds")) {
        const std::size_t readings = one.at("points").size();
        table.rows.push_back(
            {{text_cell(one, "compound"),
              number_cell(one.at("log_k_w"), "{:.3f}"),
              number_cell(one.at("S"), "{:.2f}"),
              {fmt::format("{:.3f}–{:.3f}", number_in(one, "measured_from"),
                           number_in(one, "measured_to")),
               number_in(one, "measured_from")},
              {fmt::format("{}", readings), static_cast<double>(readings)},
              off_cell(one),
              number_cell(one.at("log_p"), "{:.1f}"),
              {one.at("bent").get<bool>() ? "bends: a straight line fits badly" : ""}}});
    }
    std::vector<std::string> notes = texts_in(answer, "notes");
    const std::vector<std::string> basis = texts_in(answer, "basis");
    notes.insert(notes.end(), basis.begin(), basis.end());
    return "<h2>What this rests on</h2>\n" + table_html(html::without_empty_columns(table)) +
           html::list_html("", notes, "notes");
}

std::string lead(const Json &answer) {
    const std::size_t count = answer.at("compounds").size();
    std::string words = fmt::format("{} compound{} over the volume fraction of {}", count,
                                    count == 1 ? "" : "s", text_in(answer, "modifier"));
    std::string systems;
    for (const Json &system : answer.at("systems")) {
        systems += (systems.empty() ? ", from " : ", ") + system.get<std::string>();
    }
    return words + systems + ".";
}

PageContent resolve_page(const Report &report) {
    const Json &answer = report.results.at(0);
    const std::string body =
        verdict(answer) + html::list_html("Look at this first", attention(answer), "warnings") +
        figure(answer) + best_html(answer) + crossings_html(answer) + wanted_html(answer) +
        gradient_html(answer) + lines_html(answer) + "<h2>Why this order</h2>\n<p>" +
        escaped(text_in(answer, "rule")) + "</p>\n<h2>Before you start</h2>\n" +
        html::list_html("", texts_in(answer, "cautions"), "warnings");
    return {"Which composition resolves the mixture?", lead(answer), body};
}

/// One row a compound, in the order in which they were asked about.
FlatTable resolve_flat_table(const Json &results) {
    const Json &answer = results.at(0);
    const Json &best = answer.at("best");
    const Json &gradient = answer.at("gradient");
    FlatTable table{{"compound", "log_k_w", "S", "measured_from", "measured_to", "readings",
                     "worst_factor", "bent", "log_p", "fraction", "k", "k_low", "k_high", "tR",
                     "resolution_to_next", "outside_measured", "gradient_tR"},
                    {}};
    const Json &compounds = answer.at("compounds");
    for (std::size_t i = 0; i < compounds.size(); ++i) {
        const Json &one = compounds[i];
        std::vector<Json> row{
            one.at("compound"),      one.at("log_k_w"),     one.at("S"),
            one.at("measured_from"), one.at("measured_to"), one.at("points").size(),
            one.at("worst_factor"),  one.at("bent"),        one.at("log_p")};
        Json at_best = Json::object();
        if (!best.is_null()) {
            const Json &order = best.at("order");
            at_best = *std::find_if(order.begin(), order.end(), [&](const Json &other) {
                return other.at("compound") == one.at("compound");
            });
            at_best["fraction"] = best.at("fraction");
        }
        for (const char *field :
             {"fraction", "k", "k_low", "k_high", "tR", "resolution_to_next", "outside_measured"}) {
            row.push_back(at_best.value(field, Json(nullptr)));
        }
        row.push_back(gradient.is_null() ? Json(nullptr) : gradient.at("compounds")[i].at("tR"));
        table.rows.push_back(std::move(row));
    }
    return table;
}

} // namespace

DrawnMap drawn_map(const Json &answer) {
    DrawnMap map;
    map.modifier = text_in(answer, "modifier");
    map.plates =
        fmt::format("{} compounds, plate number {:.0f} ({})", answer.at("compounds").size(),
                    number_in(answer, "plate_number"), text_in(answer, "plate_basis"));
    for (const Json &point : answer.at("curve")) {
        if (point.at("fraction") == answer.at("best").at("fraction")) {
            map.best = map.points.size();
        }
        map.points.push_back({number_in(point, "fraction"), number_in(point, "resolution"),
                              pair_name(point.at("critical_pair")),
                              point.at("outside_window").get<std::size_t>() > 0});
    }
    map.measured_from = number_in(answer, "measured_from");
    map.measured_to = number_in(answer, "measured_to");
    std::set<double> readings;
    for (const Json &compound : answer.at("compounds")) {
        for (const Json &point : compound.at("points")) {
            readings.insert(number_in(point, "fraction"));
        }
    }
    map.readings.assign(readings.begin(), readings.end());
    map.k_from = number_in(answer, "k_from");
    map.k_to = number_in(answer, "k_to");
    map.resolution_wanted = number_in(answer, "resolution_wanted");
    return map;
}

const ReportDrawing &resolve_report() {
    static constexpr ReportDrawing drawing{resolve_page, resolve_flat_table};
    return drawing;
}

} // namespace cospot

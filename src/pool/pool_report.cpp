#include "pool/pool_report.h"

#include "document/html.h"
#include "document/probability_text.h"
#include "pool/pool_words.h"
#include "report/json_cells.h"
#include "pool/pool_fractions.h"
#include "pool/pool_run.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot {

namespace {

using html::escaped;

std::string numbers_in(const Json &numbers) {
    return numbers_text(numbers.get<std::vector<int>>());
}

std::string ranges_in(const Json &ranges) {
    std::vector<fractions::FractionRange> found;
    for (const Json &range : ranges) {
        found.push_back({range.at("first").get<int>(), range.at("last").get<int>()});
    }
    return ranges_text(found);
}

/// "3-5, 7" with no break within a range.
std::string ranges_html(std::string_view ranges) {
    std::string html;
    while (!ranges.empty()) {
        const std::size_t end = ranges.find(", ");
        html += fmt::format("{}<span class=\"nowrap\">{}</span>", html.empty() ? "" : ", ",
                            escaped(ranges.substr(0, end)));
        ranges = end == std::string_view::npos ? "" : ranges.substr(end + 2);
    }
    return html;
}

/// "31.4", "31.4 (4 of 5 known)", or nothing.
html::Cell sum_cell(const Json &sum) {
    if (sum.is_null()) {
        return {};
    }
    html::Cell cell = number_cell(sum.at("total"), "{:.4g}");
    if (sum.at("known") != sum.at("of")) {
        cell.content += fmt::format(" ({} of {} known)", sum.at("known").get<std::size_t>(),
                                    sum.at("of").get<std::size_t>());
    }
    return cell;
}

const Json *wanted(const PoolObjects &objects) {
    const auto found =
        std::find_if(objects.components.begin(), objects.components.end(),
                     [](const Json *component) { return component->at("target").get<bool>(); });
    return found == objects.components.end() ? nullptr : *found;
}

/// The advice on the wanted component in a sentence; where something is wrong, that instead.
std::string verdict(const PoolObjects &objects) {
    const Json *component = wanted(objects);
    if (component == nullptr) {
        return objects.components.empty() ? "Nothing was seen in any fraction." : "";
    }
    const Json &target = objects.run->at("target");
    std::string text = "Wanted: " + component->at("component").get<std::string>();
    if (!target.at("probability").is_null()) {
        text += fmt::format(" ({} or what runs like it, {})", target.at("asked").get<std::string>(),
                            probability_text(target.at("probability").get<double>()));
    }
    if (!component->at("one_spot").empty()) {
        text += ", combine " + numbers_in(component->at("one_spot"));
    }
    if (!component->at("mixed").empty()) {
        text += "; re-run " + numbers_in(component->at("mixed")) + " for the rest";
    }
    if (!component->at("not_seen").empty()) {
        text += "; spot " + ranges_in(component->at("not_seen")) + " first";
    }
    return text + '.';
}

std::string pool_attention(const Json &run) {
    std::vector<std::string> sentences;
    for (const Json &warning : run.at("warnings")) {
        sentences.push_back(warning.at("text").get<std::string>());
    }
    if (const Json &target = run.at("target");
        !target.is_null() && !target.at("fault").get<std::string>().empty()) {
        sentences.push_back(target.at("fault").get<std::string>());
    }
    return html::list_html("Look at this before anything is combined", sentences, "warnings");
}

html::Row advice_row(const std::string &what, const std::string &numbers, const std::string &why,
                     const Json &mass = nullptr, const Json &volume = nullptr) {
    return {{{escaped(what)},
             {ranges_html(numbers)},
             {escaped(why)},
             sum_cell(mass),
             sum_cell(volume)}};
}

void add_pools(html::Table &table, const PoolObjects &objects) {
    const Json &run = *objects.run;
    for (const Json &pool : run.at("pools")) {
        const auto name = pool.at("component").get<std::string>();
        table.rows.push_back(advice_row(
            (pool.at("fractions").size() == 1 ? "Keep " : "Combine ") + name,
            numbers_in(pool.at("fractions")),
            is_trace(run) ? "one band seen by the detector" : "one spot seen in this system",
            pool.at("mass"), pool.at("volume")));
    }
    for (const Json *component : objects.components) {
        if (component->at("one_spot").empty()) {
            table.rows.push_back(
                advice_row("Re-run " + component->at("component").get<std::string>(),
                           numbers_in(component->at("mixed")), "no fraction shows it alone"));
        }
    }
    for (const Json &pool : run.at("mixed")) {
        table.rows.push_back(
            advice_row("Keep apart", numbers_in(pool.at("fractions")),
                       joined_names(pool.at("components")) + " together: re-run, or leave out",
                       pool.at("mass"), pool.at("volume")));
    }
}

void add_what_is_open(html::Table &table, const PoolObjects &objects) {
    const Json &run = *objects.run;
    for (const Json *component : objects.components) {
        const auto name = component->at("component").get<std::string>();
        if (!component->at("missed").empty()) {
            table.rows.push_back(
                advice_row("Spot again", numbers_in(component->at("missed")),
                           name + " was not seen there, though before and behind"));
        }
        if (!component->at("not_seen").empty()) {
            table.rows.push_back(advice_row("Spot", ranges_in(component->at("not_seen")),
                                            "not looked at, within the band of " + name));
        }
    }
    if (!run.at("no_spot").empty()) {
        table.rows.push_back(advice_row(
            is_trace(run) ? "Spot on a plate" : "Try another stain", numbers_in(run.at("no_spot")),
            "nothing was seen, which does not prove them empty: look again before you "
            "discard them"));
    }
    if (!run.at("not_seen").empty()) {
        table.rows.push_back(
            advice_row("Not looked at", ranges_in(run.at("not_seen")), "nothing is said of them"));
    }
    const Json &all = run.at("fractions");
    if (!run.at("open_start").empty()) {
        table.rows.push_back(advice_row(
            "Look before", std::to_string(all.front().at("fraction").get<int>()),
            "the first one looked at shows " + joined_names(run.at("open_start")) + " already"));
    }
    if (!run.at("open_end").empty()) {
        table.rows.push_back(
            advice_row("Look or collect on", std::to_string(all.back().at("fraction").get<int>()),
                       "the last one looked at still shows " + joined_names(run.at("open_end"))));
    }
}

std::string advice_table(const PoolObjects &objects) {
    html::Table table;
    table.caption = "What to do with which fractions";
    table.columns = {{"Do"}, {"Fractions"}, {"Because"}, {"Mass, mg", true}, {"Volume, mL", true}};
    add_pools(table, objects);
    add_what_is_open(table, objects);
    return table_html(html::without_empty_columns(table));
}

std::string recovery_words(const Json &component) {
    const Json &recovery = component.at("recovery");
    if (recovery.is_null()) {
        return {};
    }
    if (component.at("mixed").empty()) {
        return "100 %";
    }
    return fmt::format("{}{:.0f} %", recovery.at("lower_bound").get<bool>() ? "at least " : "",
                       100.0 * recovery.at("one_spot").get<double>());
}

/// "0.41 (0.40–0.41)"
html::Cell rf_cell(const Json &component) {
    html::Cell cell = number_cell(component.at("rf"), "{:.2f}");
    if (cell.value) {
        cell.content += fmt::format(" ({:.2f}–{:.2f})", component.at("rf_low").get<double>(),
                                    component.at("rf_high").get<double>());
    }
    return cell;
}

/// What cannot be told apart shares a line; `unlisted` is one of them.
std::string candidates_html(const Json &component) {
    constexpr double worth_saying = 0.05;
    if (component.at("unlisted").is_null()) {
        return {}; // no library was asked
    }
    if (component.at("groups").empty()) {
        return "nothing to compare with";
    }
    std::string html;
    const auto add = [&](const std::string &name, double probability) {
        html += fmt::format("{}{} {}", html.empty() ? "" : "<br>", escaped(name),
                            probability_text(probability));
    };
    for (const Json &group : component.at("groups")) {
        if (const auto probability = group.at("probability").get<double>();
            probability >= worth_saying) {
            std::string name;
            for (const Json &compound : group.at("compounds")) {
                name += (name.empty() ? "" : " or ") + compound.get<std::string>();
            }
            if (const int more = group.at("more").get<int>(); more > 0) {
                name += fmt::format(" or {} more", more);
            }
            add(name, probability);
        }
    }
    add("unlisted", component.at("unlisted").get<double>());
    return html;
}

html::Row component_row(const Json &component) {
    const int first = component.at("first").get<int>();
    const int last = component.at("last").get<int>();
    html::Row row{{{escaped(component.at("component").get<std::string>())}, rf_cell(component)}};
    if (component.at("target").get<bool>()) {
        row.cells[0].content += " <span class=\"badge\">wanted</span>";
    }
    row.cells.push_back({ranges_html(ranges_text({{first, last}}))});
    for (const char *field : {"one_spot", "mixed", "weak_edges"}) {
        row.cells.push_back({ranges_html(numbers_in(component.at(field)))});
    }
    row.cells.push_back({recovery_words(component)});
    row.cells.push_back({candidates_html(component)});
    return row;
}

std::string components_table(const PoolObjects &objects) {
    if (objects.components.empty()) {
        return {};
    }
    html::Table table;
    table.caption = "Components in the order in which they leave; the share is that of its "
                    "intensity which the fractions hold that show it alone";
    table.columns = {{"Component"},   {"Rf (from–to)"}, {"Fractions"},   {"Alone"},
                     {"With others"}, {"Weak edges"},   {"Share", true}, {"May be"}};
    for (const Json *component : objects.components) {
        table.rows.push_back(component_row(*component));
    }
    return table_html(html::without_empty_columns(table));
}

std::string balance(const Json &run) {
    const Json &sum = run.at("collected");
    if (sum.is_null()) {
        return "";
    }
    const auto total = sum.at("total").get<double>();
    std::string text = fmt::format("All fractions together: {:.4g} mg", total);
    if (sum.at("known") != sum.at("of")) {
        text += fmt::format(" ({} of {} known)", sum.at("known").get<std::size_t>(),
                            sum.at("of").get<std::size_t>());
    }
    if (!run.at("loaded_mg").is_null()) {
        const auto loaded = run.at("loaded_mg").get<double>();
        text += fmt::format(", {:.0f} % of the {:.4g} mg loaded", 100.0 * total / loaded, loaded);
    }
    return "<p>" + text + "; solvent left in them counts too.</p>\n";
}

std::string lead(const PoolObjects &objects) {
    const std::size_t fractions = objects.run->at("fractions").size();
    const std::size_t components = objects.components.size();
    return fmt::format("{} fraction{} of a column, looked at {}; {} component{} told apart.",
                       fractions, fractions == 1 ? "" : "s",
                       is_trace(*objects.run) ? "by a detector" : "on plates", components,
                       components == 1 ? "" : "s");
}

PageContent pool_page(const Report &report) {
    const PoolObjects objects = pool_objects(report.results);
    const Json &run = *objects.run;
    std::string body;
    if (const std::string words = verdict(objects); !words.empty()) {
        body += "<p class=\"verdict\">" + escaped(words) + "</p>\n";
    }
    body += pool_attention(run) + pool_figures(objects) + advice_table(objects) + balance(run) +
            components_table(objects);
    body += "<h2>Fraction by fraction</h2>\n" + fractions_table(run);
    body += "<h2>What this rests on</h2>\n" +
            html::list_html("", run.at("notes").get<std::vector<std::string>>(), "notes");
    body += "<h2>Before you start</h2>\n" +
            html::list_html("", run.at("cautions").get<std::vector<std::string>>(), "warnings");
    return {"Which fractions to combine", lead(objects), body};
}

} // namespace

const ReportDrawing &pool_report() {
    static constexpr ReportDrawing drawing{pool_page, pool_flat_table};
    return drawing;
}

} // namespace cospot

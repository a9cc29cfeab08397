#include "advise/system_advice_html.h"

#include "document/html.h"
#include "drawing/share_bar.h"
#include "report/json_cells.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace cospot {

namespace {

using html::escaped;

constexpr std::size_t kMostPairs = 200; ///< on a page

/// Names of systems (HTML) with no break within a name.
std::string joined(const Json &systems) {
    std::string html;
    for (const Json &system : systems) {
        html += fmt::format("{}<span class=\"nowrap\">{}</span>", html.empty() ? "" : " + ",
                            escaped(system.get<std::string>()));
    }
    return html;
}

std::string sets_table(const Json &sets, const char *caption) {
    html::Table table;
    table.caption = caption;
    table.columns = {{"Systems"},
                     {"How many", true},
                     {"Pairs told apart"},
                     {"Discriminating power", true},
                     {"Mean list length", true}};
    table.is_sortable = true;
    for (const Json &set : sets) {
        const Json &systems = set.at("systems");
        const auto power = set.at("discriminating_power").get<double>();
        table.rows.push_back(
            {{{joined(systems)},
              {std::to_string(systems.size()), static_cast<double>(systems.size())},
              {share_bar(power, fmt::format("{:.0f} % of the pairs", 100.0 * power)), power},
              number_cell(set.at("discriminating_power"), "{:.3f}"),
              number_cell(set.at("mean_list_length"), "{:.2f}")}});
    }
    return table_html(table);
}

std::string pairs_html(const Json &advice) {
    const Json &pairs = advice.at("inseparable");
    std::vector<std::string> sentences;
    for (std::size_t i = 0; i < std::min(kMostPairs, pairs.size()); ++i) {
        sentences.push_back(pairs[i][0].get<std::string>() + " and " +
                            pairs[i][1].get<std::string>());
    }
    std::string html = html::list_html(
        "Not told apart by any system, though measured on one together", sentences, "pairs");
    if (pairs.size() > kMostPairs) {
        html += fmt::format("<p>And {} more pairs; a report that ends in .json has them all.</p>\n",
                            pairs.size() - kMostPairs);
    }
    const auto never = advice.at("never_together").get<std::size_t>();
    if (never > 0) {
        const std::size_t compounds = advice.at("compounds").size();
        html += fmt::format("<p>{} of {} pairs were never measured on one system together, and "
                            "count as not told apart.</p>\n",
                            never, compounds * (compounds - 1) / 2);
    }
    return html;
}

} // namespace

std::string system_advice_html(const Json &advice) {
    const Json &sets = advice.at("sets");
    if (sets.empty()) {
        return "<p class=\"verdict\">No system of the library tells any two of them apart.</p>\n" +
               pairs_html(advice);
    }
    const Json &best = sets.back();
    std::string html = fmt::format(
        "<p class=\"verdict\">{} tell{} most apart: on average {:.1f} of {} remain.</p>\n",
        joined(best.at("systems")), best.at("systems").size() == 1 ? "s" : "",
        best.at("mean_list_length").get<double>(), advice.at("compounds").size());
    html += sets_table(sets, "Together: the best one, two, … systems");
    html += advice.at("exact").get<bool>()
                ? std::string(
                      "<p>No others do better: all sets of as many systems were compared.</p>\n")
                : fmt::format("<p>Chosen one after the other; at least {} systems are "
                              "needed.</p>\n",
                              advice.at("at_least").get<std::size_t>());
    return html + sets_table(advice.at("alone"), "One by one") + pairs_html(advice);
}

} // namespace cospot

#include "quantities/stains.h"

#include "quantities/stain_table.h"
#include "shared/embedded_table.h"
#include "shared/table.h"
#include "shared/text.h"

#include <algorithm>
#include <sstream>

namespace cospot {

namespace {

std::vector<std::string> parts(std::string_view text, char separator) {
    std::vector<std::string> result;
    while (!text.empty()) {
        const std::string_view part = text.substr(0, text.find(separator));
        text.remove_prefix(std::min(text.size(), part.size() + 1));
        result.emplace_back(trimmed(part));
    }
    return result;
}

/// The whole table; the lamp's row comes first.
std::vector<Stain> read_table() {
    std::istringstream in{std::string(without_comments(kStainTable))};
    TableReader table(in, "stains.tsv",
                      {{"stain", true},
                       {"aliases", true},
                       {"reacts", true},
                       {"reacts_weakly", true},
                       {"if_reacts", true},
                       {"if_none", true}});
    std::vector<Stain> rows;
    while (table.next()) {
        rows.push_back({std::string(table.required_text("stain", "the name of a reagent")),
                        parts(table.text("aliases"), '|'), parts(table.text("reacts"), ','),
                        parts(table.text("reacts_weakly"), ','),
                        table.number("if_reacts", "a probability"),
                        table.number("if_none", "a probability")});
    }
    return rows;
}

const std::vector<Stain> &table_rows() {
    static const std::vector<Stain> rows = read_table();
    return rows;
}

bool is_named(const Stain &stain, std::string_view name) {
    return equal_ignoring_case(stain.name, name) ||
           std::any_of(stain.aliases.begin(), stain.aliases.end(),
                       [&](const auto &alias) { return equal_ignoring_case(alias, name); });
}

bool has_one_of(const std::set<std::string> &groups, const std::vector<std::string> &wanted) {
    return std::any_of(wanted.begin(), wanted.end(),
                       [&](const auto &group) { return groups.contains(group); });
}

} // namespace

const std::vector<Stain> &stains() {
    static const std::vector<Stain> reagents(table_rows().begin() + 1, table_rows().end());
    return reagents;
}

const Stain *find_stain(std::string_view name) {
    const auto found = std::find_if(stains().begin(), stains().end(),
                                    [&](const Stain &stain) { return is_named(stain, name); });
    return found == stains().end() ? nullptr : &*found;
}

const Stain &stain_named(std::string_view name, const Where &where) {
    if (const Stain *stain = find_stain(name)) {
        return *stain;
    }
    std::string known;
    for (const Stain &stain : stains()) {
        known += (known.empty() ? "" : "; ") + stain.name;
    }
    throw InputError(where, in_quotes(name), "one of " + known);
}

const Stain &uv254() {
    return table_rows().front();
}

double seen_probability(const Stain &stain, const std::set<std::string> &groups) {
    if (has_one_of(groups, stain.reacts)) {
        return stain.if_reacts;
    }
    return has_one_of(groups, stain.reacts_weakly) ? (stain.if_reacts + stain.if_none) / 2
                                                   : stain.if_none;
}

} // namespace cospot

#include "pool/pool_document.h"

#include "document/caution.h"
#include "document/cells.h"
#include "pool/pool_fractions.h"
#include "pool/pool_picture.h"
#include "pool/pool_words.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace cospot {

namespace {

using fractions::ComponentPool;
using fractions::PartialSum;

// -- What to do ----------------------------------------------------------------------------------

/// "31.4"; where some are not known, "≥ 31.4" and a note.
Cell sum_cell(const PartialSum &sum, std::string_view what, std::vector<std::string> &notes) {
    if (sum.known == 0) {
        return {};
    }
    const bool is_partial = sum.known < sum.of;
    if (is_partial) {
        notes.push_back(fmt::format("{} known for {} of {} fractions", what, sum.known, sum.of));
    }
    return {(is_partial ? "≥ " : "") + amount_text(sum.total), sum.total};
}

Row advice_row(std::string what, std::string numbers, std::string why, const PartialSum &mass = {},
               const PartialSum &volume = {}) {
    Row row{{{std::move(what)}, {std::move(numbers)}, {std::move(why)}}};
    row.cells.push_back(sum_cell(mass, "mass", row.notes));
    row.cells.push_back(sum_cell(volume, "volume", row.notes));
    return row;
}

void add_pools(Table &table, const PoolResult &result) {
    const auto &components = result.run.components;
    for (std::size_t i = 0; i < components.size(); ++i) {
        const ComponentPool &pool = result.pooling.components[i];
        if (!pool.one_spot.empty()) {
            table.rows.push_back(
                advice_row(fmt::format("{} {}", combine_word(pool.one_spot), components[i].name),
                           numbers_text(pool.one_spot),
                           result.run.is_trace ? "one band seen" : "one spot seen",
                           pool.one_spot_mass_mg, pool.one_spot_volume_ml));
        } else {
            table.rows.push_back(advice_row("Re-run " + components[i].name,
                                            numbers_text(pool.mixed), "nowhere seen alone"));
        }
    }
    for (const fractions::MixedPool &pool : result.pooling.mixed) {
        table.rows.push_back(advice_row("Keep apart", numbers_text(pool.fractions),
                                        components_text(pool.components, result.run) +
                                            " together: re-run, or leave out",
                                        pool.mass_mg, pool.volume_ml));
    }
}

void add_what_is_open(Table &table, const PoolResult &result) {
    const fractions::Pooling &pooling = result.pooling;
    if (!pooling.no_spot.empty()) {
        table.rows.push_back(
            advice_row("Look again", numbers_text(pooling.no_spot),
                       fmt::format("nothing seen, but not proven empty: {} before discarding",
                                   result.run.is_trace ? "spot on a plate" : "try another stain")));
    }
    if (!pooling.not_seen.empty()) {
        table.rows.push_back(
            advice_row("Not looked at", ranges_text(pooling.not_seen), "nothing is known"));
    }
    const auto &all = result.run.fractions;
    if (!pooling.open_start.empty()) {
        table.rows.push_back(advice_row("Look before", std::to_string(all.front().number),
                                        "the first one looked at already shows " +
                                            components_text(pooling.open_start, result.run)));
    }
    if (!pooling.open_end.empty()) {
        table.rows.push_back(advice_row("Look further", std::to_string(all.back().number),
                                        "the last one looked at still shows " +
                                            components_text(pooling.open_end, result.run) +
                                            ": look at the next, or go on collecting"));
    }
}

std::string balance_text(const PoolResult &result) {
    const PartialSum sum = collected_mg(result);
    std::string text = "All fractions together: " + amount_text(sum.total) + " mg";
    if (sum.known < sum.of) {
        text += fmt::format(" ({} of {} weighed)", sum.known, sum.of);
    }
    if (result.loaded_mg) {
        text += fmt::format(", {:.0f} % of the {} mg loaded", 100.0 * sum.total / *result.loaded_mg,
                            amount_text(*result.loaded_mg));
    }
    return text + "; solvent left in them counts too.";
}

Section advice_section(const PoolResult &result) {
    Table table{
        .label = "What to do with which fractions",
        .columns = {{"Do"}, {"Fractions"}, {"Because"}, {"Mass, mg", true}, {"Volume, mL", true}}};
    add_pools(table, result);
    add_what_is_open(table, result);
    Section section{"What to do", "", {}, {std::move(table)}};
    if (collected_mg(result).known > 0) {
        section.blocks.push_back(Paragraph{balance_text(result)});
    }
    return section;
}

// -- The components ------------------------------------------------------------------------------

/// "0.41 (0.40–0.41)"
Cell rf_cell(const fractions::Component &component) {
    if (!component.rf) {
        return {};
    }
    const auto [low, high] = rf_range(component);
    return {fmt::format("{:.2f} ({:.2f}–{:.2f})", *component.rf, low, high), component.rf};
}

Cell share_cell(const ComponentPool &pool) {
    if (!pool.recovery) {
        return {};
    }
    const bool is_bound = pool.recovery->is_lower_bound && !pool.mixed.empty();
    const double percent = 100.0 * pool.recovery->one_spot;
    return {fmt::format("{}{:.0f} %", is_bound ? "≥ " : "", percent), percent};
}

/// Those of the fractions to combine.
std::vector<int> weak_edges_of(const ComponentPool &pool) {
    std::vector<int> weak;
    std::set_intersection(pool.weak_edges.begin(), pool.weak_edges.end(), pool.one_spot.begin(),
                          pool.one_spot.end(), std::back_inserter(weak));
    return weak;
}

Section components_section(const PoolResult &result) {
    Table table{.label = "Components in the order in which they leave",
                .columns = {{"Component"},
                            {"Rf (from–to)", true},
                            {"Fractions"},
                            {"With others"},
                            {"Share", true},
                            {"Weak edges"}}};
    bool has_shares = false;
    bool has_weak_edges = false;
    for (std::size_t i = 0; i < result.run.components.size(); ++i) {
        const fractions::Component &component = result.run.components[i];
        const ComponentPool &pool = result.pooling.components[i];
        const int first = result.run.fractions[component.spots.front().fraction].number;
        const int last = result.run.fractions[component.spots.back().fraction].number;
        const std::vector<int> weak = weak_edges_of(pool);
        const bool is_wanted = is_target(result, i);
        table.rows.push_back({{{component.name + (is_wanted ? ", target" : ""),
                                {},
                                is_wanted ? Emphasis::strong : Emphasis::none},
                               rf_cell(component),
                               {ranges_text({{first, last}})},
                               {numbers_text(pool.mixed)},
                               share_cell(pool),
                               {numbers_text(weak)}}});
        has_shares = has_shares || pool.recovery;
        has_weak_edges = has_weak_edges || !weak.empty();
    }
    Section section{"The components", "", {}, {std::move(table)}};
    if (has_shares) {
        section.blocks.push_back(Paragraph{
            "Share: how much of a component's intensity the fractions hold that show it alone; "
            "those with others hold the rest.",
            Paragraph::Role::small});
    }
    if (has_weak_edges) {
        section.blocks.push_back(Paragraph{
            fmt::format("Weak edges: fractions to combine with less than {:.0f} % of the strongest "
                        "{}. A neighbour hides there most easily: leave out what the yield can "
                        "spare.",
                        100.0 * fractions::kWeakShare, result.run.is_trace ? "signal" : "spot"),
            Paragraph::Role::small});
    }
    return section;
}

/// Compounds that cannot be told apart here share a name, "(S)-carvone or (R)-carvone".
std::string group_text(const matcher::Group &group, const Identification &identified) {
    std::string name;
    for (const std::size_t member : group.members) {
        name += (name.empty() ? "" : " or ") + identified.candidates[member].name;
    }
    return group.not_listed > 0 ? fmt::format("{} or {} more", name, group.not_listed) : name;
}

void add_candidates_of(const Identification &identified, const std::string &component,
                       Table &table) {
    constexpr double worth_saying = 0.05;
    if (identified.groups.empty()) {
        table.rows.push_back({{{component}, {"nothing to compare with"}, {}}});
        return;
    }
    std::vector<Row> rows{{{{}, {"unlisted"}, probability_cell(identified.unlisted)}}};
    for (const matcher::Group &group : identified.groups) {
        if (group.probability >= worth_saying || &group == &identified.groups.front()) {
            rows.push_back(
                {{{}, {group_text(group, identified)}, probability_cell(group.probability)}});
        }
    }
    std::stable_sort(rows.begin(), rows.end(), [](const Row &a, const Row &b) {
        return a.cells.back().value > b.cells.back().value;
    });
    rows.front().cells.front().text = component;
    table.rows.insert(table.rows.end(), rows.begin(), rows.end());
}

Section candidates_section(const PoolResult &result) {
    Table table{.label = "What each component may be",
                .columns = {{"Component"}, {"May be"}, {"Probability", true}}};
    for (std::size_t i = 0; i < result.candidates.size(); ++i) {
        add_candidates_of(result.candidates[i], result.run.components[i].name, table);
    }
    return {"What each component may be", "", {}, {std::move(table)}};
}

// -- The whole -----------------------------------------------------------------------------------

std::vector<Block> pool_blocks(const PoolResult &result) {
    std::vector<Block> blocks{Paragraph{verdict_text(result), Paragraph::Role::verdict}};
    if (!result.warnings.empty()) {
        std::vector<std::string> texts;
        for (const fractions::Warning &warning : result.warnings) {
            texts.push_back(warning_text(warning, result.run));
        }
        blocks.push_back(Section{"Before anything is combined",
                                 "",
                                 {},
                                 {List{"", std::move(texts), List::Role::warnings}}});
    }
    Section run{"The run of the column", "", {}, {}};
    for (Figure &figure : pool_figures(result)) {
        run.blocks.push_back(std::move(figure));
    }
    blocks.push_back(std::move(run));
    blocks.push_back(advice_section(result));
    if (!result.run.components.empty()) {
        blocks.push_back(components_section(result));
    }
    if (!result.candidates.empty()) {
        blocks.push_back(candidates_section(result));
    }
    blocks.push_back(Details{{Section{"Fraction by fraction", "", {}, {fractions_table(result)}}}});
    blocks.push_back(Section{"What this rests on", "", {}, {List{"", pool_notes(result)}}});
    return blocks;
}

} // namespace

Document pool_document(const PoolResult &result) {
    Document document{.title = "Which fractions to combine",
                      .lead = fmt::format("{} of a column, looked at {}.",
                                          counted(result.run.fractions.size(), "fraction"),
                                          result.run.is_trace ? "by a detector" : "on plates"),
                      .blocks = pool_blocks(result),
                      .cautions = {kColumnCautions.begin(), kColumnCautions.end()},
                      .data = fractions_data(result)};
    if (!result.candidates.empty()) {
        document.cautions.emplace(document.cautions.begin(), kRetentionIsNoProof);
    }
    return document;
}

} // namespace cospot

#include "advise/systems_document.h"

#include "document/caution.h"
#include "document/cells.h"
#include "drawing/share_bar.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

namespace cospot {

namespace {

constexpr std::size_t kListedRows = 8;  ///< systems by themselves and pairs, on a terminal
constexpr std::size_t kMostPairs = 200; ///< on a page

constexpr const char *kOnSystems =
    "A system tells two compounds apart where it holds both, and their means lie two combined "
    "spreads apart or more. Discriminating power: the chance that two of them, drawn at random, "
    "are told apart. Mean list length: how many are left on average when one of them is the "
    "unknown. Both are what the library expects, not a promise.";

std::string names_of(const AdvisedSet &set) {
    return fmt::to_string(fmt::join(set.systems, " + "));
}

std::string systems_verdict(const SystemAdvice &advice) {
    if (advice.sets.empty()) {
        return "No system of the library tells any two of them apart.";
    }
    const AdvisedSet &best = advice.sets.back();
    return fmt::format("{} tell{} most apart: on average {:.1f} of {} remain.", names_of(best),
                       best.systems.size() == 1 ? "s" : "", best.mean_list_length,
                       counted(advice.compounds.size(), "compound"));
}

Table sets_table(const std::vector<AdvisedSet> &sets, const char *label) {
    Table table{.label = label,
                .columns = {{"Systems"},
                            {"Pairs told apart"},
                            {"Discriminating power", true},
                            {"Mean list length", true}},
                .is_sortable = true};
    for (const AdvisedSet &set : sets) {
        const double power = set.discriminating_power;
        table.rows.push_back(
            {{{names_of(set)},
              {.text = "",
               .value = power,
               .svg = share_bar(power, fmt::format("{:.0f} % of the pairs", 100.0 * power))},
              number_cell(power, 3),
              number_cell(set.mean_list_length, 2)}});
    }
    return table;
}

Section together_section(const SystemAdvice &advice) {
    Table table = sets_table(advice.sets, "The best sets of systems");
    table.caption = "The best system, the best two of them, and so on, as long as one more tells "
                    "more pairs apart";
    const std::string choice =
        advice.is_exact
            ? "No others do better: all sets of as many systems were compared."
            : fmt::format("Chosen one after the other; at least {} {} needed.",
                          counted(advice.at_least, "system"), advice.at_least == 1 ? "is" : "are");
    return {"Together", "", {}, {std::move(table), Paragraph{choice}}};
}

Section alone_section(const SystemAdvice &advice) {
    Table table = sets_table(advice.alone, "Every system by itself");
    table.max_rows = kListedRows;
    return {"One by one", "", {}, {std::move(table)}};
}

/// Without blocks where every pair is told apart.
Section pairs_section(const SystemAdvice &advice) {
    Section section{"Not told apart", "", {}, {}};
    Table table{.label = "Pairs that no system tells apart",
                .caption = "Measured on one system together, but told apart by none",
                .columns = {{"Compound"}, {"Not told from"}},
                .max_rows = kListedRows};
    const std::size_t shown = std::min(kMostPairs, advice.inseparable.size());
    for (std::size_t i = 0; i < shown; ++i) {
        table.rows.push_back({{{advice.inseparable[i].first}, {advice.inseparable[i].second}}});
    }
    if (!table.rows.empty()) {
        section.blocks.emplace_back(std::move(table));
    }
    if (shown < advice.inseparable.size()) {
        section.blocks.emplace_back(Paragraph{
            fmt::format("These are the first {} of {} such pairs; a report that ends in .json has "
                        "them all.",
                        shown, advice.inseparable.size())});
    }
    if (advice.never_together > 0) {
        const std::size_t compounds = advice.compounds.size();
        const bool is_one = advice.never_together == 1;
        section.blocks.emplace_back(Paragraph{
            fmt::format("{} of {} {} never measured on one system together, and {} as "
                        "not told apart.",
                        advice.never_together, counted(compounds * (compounds - 1) / 2, "pair"),
                        is_one ? "was" : "were", is_one ? "counts" : "count")});
    }
    return section;
}

DataTable sets_data(const SystemAdvice &advice) {
    DataTable data{{"list", "systems", "count", "discriminating_power", "mean_list_length"}};
    for (const auto &[list, sets] : {std::pair("sets", &advice.sets), {"alone", &advice.alone}}) {
        for (const AdvisedSet &set : *sets) {
            data.rows.push_back({list, fmt::to_string(fmt::join(set.systems, ";")),
                                 static_cast<std::int64_t>(set.systems.size()),
                                 set.discriminating_power, set.mean_list_length});
        }
    }
    return data;
}

} // namespace

Document systems_document(const SystemAdvice &advice) {
    Document document{.title = "Which systems tell compounds apart",
                      .lead = counted(advice.compounds.size(), "compound") +
                              " of the library, and the systems on which it holds them.",
                      .blocks = {Paragraph{systems_verdict(advice), Paragraph::Role::verdict}},
                      .notes = {kOnSystems},
                      .cautions = {std::string(kRetentionIsNoProof)},
                      .data = sets_data(advice)};
    if (!advice.sets.empty()) {
        document.blocks.emplace_back(together_section(advice));
        document.blocks.emplace_back(alone_section(advice));
    }
    if (Section pairs = pairs_section(advice); !pairs.blocks.empty()) {
        document.blocks.emplace_back(std::move(pairs));
    }
    return document;
}

} // namespace cospot

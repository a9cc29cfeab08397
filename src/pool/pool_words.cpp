#include "pool/pool_words.h"

#include "document/probability_text.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot {

namespace {

using fractions::WarningKind;

/// "B (Rf 0.41)"; of a trace only "B".
std::string named(const fractions::Component &component) {
    return component.rf ? fmt::format("{} (Rf {:.2f})", component.name, *component.rf)
                        : component.name;
}

std::string order_text(const fractions::Component &early, const fractions::Component &late) {
    return fmt::format(
        "{} leaves before {}, though what runs farther on a plate of the column's phase should "
        "leave first: check tubes, labels and plates (or --order open where plates and column "
        "differ in phase)",
        named(early), named(late));
}

std::string drift_text(const fractions::Component &component) {
    const auto [least, most] = std::minmax_element(
        component.spots.begin(), component.spots.end(),
        [](const auto &a, const auto &b) { return a.rf.value() < b.rf.value(); });
    return fmt::format("Rf of {} wanders between {:.2f} and {:.2f}: plates that ran differently, "
                       "or two components that follow each other. Spot its first and last fraction "
                       "side by side, and both in one lane",
                       component.name, least->rf.value(), most->rf.value());
}

/// Compounds that cannot be told apart here share a name, "(S)-carvone or (R)-carvone".
std::string group_name(const matcher::Group &group, const Identification &candidates) {
    std::string name;
    for (const std::size_t member : group.members) {
        name += (name.empty() ? "" : " or ") + candidates.candidates[member].name;
    }
    if (group.not_listed > 0) {
        name += fmt::format(" or {} more", group.not_listed);
    }
    return name;
}

} // namespace

std::string ranges_text(const std::vector<fractions::FractionRange> &ranges) {
    std::string text;
    for (const fractions::FractionRange &range : ranges) {
        text += text.empty() ? "" : ", ";
        text += range.first == range.last ? fmt::format("{}", range.first)
                                          : fmt::format("{}-{}", range.first, range.last);
    }
    return text;
}

std::string numbers_text(const std::vector<int> &numbers) {
    return ranges_text(fractions::ranges_of(numbers));
}

std::string components_text(const std::vector<std::size_t> &components,
                            const fractions::ColumnRun &run) {
    std::string text;
    for (std::size_t i = 0; i < components.size(); ++i) {
        const bool is_last = i + 1 == components.size();
        text += (i == 0 ? "" : is_last ? " and " : ", ") + run.components[components[i]].name;
    }
    return text;
}

std::string warning_text(const fractions::Warning &warning, const fractions::ColumnRun &run) {
    const std::string where = ranges_text(warning.fractions);
    if (warning.kind == WarningKind::shoulder) {
        return fmt::format("the trace has a shoulder at {}: more than one component is likely "
                           "there; spot these fractions on a plate",
                           where);
    }
    const fractions::Component &component = run.components[warning.components.front()];
    const fractions::Component &other = run.components[warning.components.back()];
    switch (warning.kind) {
    case WarningKind::order:
        return order_text(component, other);
    case WarningKind::gap:
        return fmt::format("nobody looked at {} within the band of {}: taken neither for empty nor "
                           "for {}; spot before combining",
                           where, component.name, component.name);
    case WarningKind::missed:
        return fmt::format(
            "{} was not seen in {}, though before and behind: spot again (too little on "
            "the plate, tubes exchanged, or two components)",
            component.name, where);
    case WarningKind::drift:
        return drift_text(component);
    case WarningKind::plate_edge:
        return fmt::format("{} ends with one plate where {} begins on the next, almost alike: "
                           "perhaps one component on plates that ran differently. Spot fraction {} "
                           "again beside {}",
                           named(component), named(other), warning.fractions.front().last,
                           warning.fractions.back().first);
    case WarningKind::seen_again:
        return fmt::format("{} runs like {}, which left before: this system cannot tell them "
                           "apart. Compare them in another eluent before combining them",
                           named(component), named(other));
    case WarningKind::at_start:
        return fmt::format("{} stays at the start, where everything lies that does not move: one "
                           "spot says nothing; use a stronger eluent on the plate",
                           component.name);
    case WarningKind::at_front:
        return fmt::format("{} runs with the front, where everything lies that is not held: one "
                           "spot says nothing; use a weaker eluent on the plate",
                           component.name);
    case WarningKind::shoulder:
        break;
    }
    return "";
}

std::string candidates_text(const Identification &candidates) {
    constexpr std::size_t most = 3;
    constexpr double worth_saying = 0.05;
    if (candidates.groups.empty()) {
        return "nothing to compare with";
    }
    std::string text;
    bool unlisted_is_due = true;
    const auto add = [&](const std::string &name, double probability) {
        text +=
            fmt::format("{}{} {}", text.empty() ? "" : ", ", name, probability_text(probability));
    };
    for (std::size_t i = 0; i < std::min(most, candidates.groups.size()); ++i) {
        const matcher::Group &group = candidates.groups[i];
        if (unlisted_is_due && candidates.unlisted > group.probability) {
            add("unlisted", candidates.unlisted);
            unlisted_is_due = false;
        }
        if (i == 0 || group.probability >= worth_saying) {
            add(group_name(group, candidates), group.probability);
        }
    }
    if (unlisted_is_due) {
        add("unlisted", candidates.unlisted);
    }
    return text;
}

std::vector<std::string> pool_assumptions(const PoolResult &result) {
    std::vector<std::string> texts;
    if (result.run.is_trace) {
        texts.emplace_back("A trace shows where something leaves, not what, nor of how many "
                           "compounds: each band counts as one component. Bands that are not fully "
                           "parted are taken to overlap as Gaussian bands of their width do. Check "
                           "every pool on a plate.");
    } else {
        texts.emplace_back("One spot seen in this system is no proof of purity: what runs alike or "
                           "does not show here stays unseen. Check a pool in a second eluent.");
    }
    const auto &pools = result.pooling.components;
    const auto has_recovery = [](const auto &pool) { return pool.recovery.has_value(); };
    if (std::any_of(pools.begin(), pools.end(), has_recovery)) {
        const bool by_volume = std::all_of(pools.begin(), pools.end(), [](const auto &pool) {
            return !pool.recovery || pool.recovery->by_volume;
        });
        texts.push_back(fmt::format(
            "Shares of intensity take it as proportional to the amount within one component{}; "
            "components are never compared by it.",
            by_volume ? ", times the fraction's volume" : ", equal volumes where none are given"));
    }
    return texts;
}

} // namespace cospot

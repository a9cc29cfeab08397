#include "pool/pool_words.h"

#include "document/probability_text.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

using fractions::FractionState;
using fractions::WarningKind;

/// "B (Rf 0.41)"; of a trace only "B".
std::string named(const fractions::Component &component) {
    return component.rf ? fmt::format("{} (Rf {:.2f})", component.name, *component.rf)
                        : component.name;
}

/// "B", or "B (vanillin or what runs like it, 0.81)" where the library named it.
std::string target_name(const PoolResult &result) {
    const PoolTarget &target = result.target.value();
    const std::string &name = result.run.components[target.component.value()].name;
    return target.probability ? fmt::format("{} ({} or what runs like it, {})", name, target.asked,
                                            probability_text(*target.probability))
                              : name;
}

std::string numbers_in_state(const PoolResult &result, FractionState state) {
    std::vector<int> numbers;
    for (std::size_t i = 0; i < result.run.fractions.size(); ++i) {
        if (result.pooling.states[i] == state) {
            numbers.push_back(result.run.fractions[i].number);
        }
    }
    return numbers_text(numbers);
}

std::string order_text(const fractions::Component &early, const fractions::Component &late) {
    return fmt::format("{} leaves before {}, but what runs farther on a plate of the column's "
                       "phase should leave first. Check tubes, labels and plates; --order open "
                       "where plates and column differ in phase.",
                       named(early), named(late));
}

std::string drift_text(const fractions::Component &component) {
    const auto [low, high] = rf_range(component);
    return fmt::format("Rf of {} wanders between {:.2f} and {:.2f}: plates that ran differently, "
                       "or two components that follow each other. Spot its first and last fraction "
                       "side by side, and both in one lane.",
                       component.name, low, high);
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
    std::vector<std::string> names;
    for (const std::size_t component : components) {
        names.push_back(run.components[component].name);
    }
    return joined(names);
}

std::string seen_text(const PoolResult &result, std::size_t fraction) {
    const auto &components = result.pooling.components_in[fraction];
    const char *const what = result.run.is_trace ? "band" : "spot";
    if (components.empty()) {
        return fmt::format("no {} seen", what);
    }
    const std::string names = components_text(components, result.run);
    return components.size() == 1 ? fmt::format("one {}: {}", what, names)
                                  : fmt::format("several {}s: {}", what, names);
}

std::string amount_text(double amount) {
    constexpr double four_digits = 1000.0;
    return std::abs(amount) < four_digits ? fmt::format("{:.4g}", amount)
                                          : fmt::format("{:.0f}", amount);
}

std::string_view combine_word(const std::vector<int> &numbers) {
    return numbers.size() == 1 ? "Keep" : "Combine";
}

std::string verdict_text(const PoolResult &result) {
    if (result.run.components.empty()) {
        return "Nothing was seen in any fraction.";
    }
    if (misses_target(result)) {
        return target_fault(result);
    }
    if (!result.target) {
        const std::string alone = numbers_in_state(result, FractionState::one_spot);
        const std::string together = numbers_in_state(result, FractionState::mixed);
        return fmt::format("{} seen: {}{}.", counted(result.run.components.size(), "component"),
                           alone.empty() ? "nowhere alone" : "alone in " + alone,
                           together.empty() ? "" : "; together in " + together);
    }
    const fractions::ComponentPool &pool =
        result.pooling.components[result.target->component.value()];
    std::string text =
        pool.not_seen.empty() ? "" : "Spot " + ranges_text(pool.not_seen) + " first. ";
    text += fmt::format("{} {} for the target {}", combine_word(pool.one_spot),
                        numbers_text(pool.one_spot), target_name(result));
    return text +
           (pool.mixed.empty() ? "." : "; re-run " + numbers_text(pool.mixed) + " for the rest.");
}

std::string target_fault(const PoolResult &result) {
    if (!misses_target(result)) {
        return "";
    }
    const PoolTarget &target = result.target.value();
    return target.component
               ? fmt::format("No fraction shows the target {} alone: re-run {}.",
                             target_name(result),
                             numbers_text(result.pooling.components[*target.component].mixed))
               : fmt::format("No component fits the target {}.", target.asked);
}

std::string warning_text(const fractions::Warning &warning, const fractions::ColumnRun &run) {
    const std::string where = ranges_text(warning.fractions);
    if (warning.kind == WarningKind::shoulder) {
        return fmt::format("The trace has a shoulder at {}: more than one component is likely "
                           "there. Spot these fractions on a plate.",
                           where);
    }
    const fractions::Component &component = run.components[warning.components.front()];
    const fractions::Component &other = run.components[warning.components.back()];
    switch (warning.kind) {
    case WarningKind::order:
        return order_text(component, other);
    case WarningKind::gap:
        return fmt::format("Nobody looked at {} within the band of {}: spot before combining.",
                           where, component.name);
    case WarningKind::missed:
        return fmt::format("{0} was not seen in {1}, but before and after: spot {1} again (too "
                           "little on the plate, tubes exchanged, or two components).",
                           component.name, where);
    case WarningKind::drift:
        return drift_text(component);
    case WarningKind::plate_edge:
        return fmt::format("{} ends with one plate where {} begins on the next, almost alike: "
                           "perhaps one component on plates that ran differently. Spot fraction {} "
                           "again beside {}.",
                           named(component), named(other), warning.fractions.front().last,
                           warning.fractions.back().first);
    case WarningKind::seen_again:
        return fmt::format("{} runs like {}, which left before: this system cannot tell them "
                           "apart. Compare them in another eluent before combining them.",
                           named(component), named(other));
    case WarningKind::at_start:
        return fmt::format("{} stays at the start, where everything lies that does not move: one "
                           "spot says nothing. Use a stronger eluent on the plate.",
                           component.name);
    case WarningKind::at_front:
        return fmt::format("{} runs with the front, where everything lies that is not held: one "
                           "spot says nothing. Use a weaker eluent on the plate.",
                           component.name);
    case WarningKind::shoulder:
        break;
    }
    return "";
}

std::vector<std::string> pool_notes(const PoolResult &result) {
    std::vector<std::string> notes = result.notes;
    notes.emplace_back(
        result.run.is_trace
            ? "A trace shows where something leaves, not what, nor of how many compounds: each "
              "band counts as one component. Bands that are not fully separated are taken to "
              "overlap as Gaussian bands of their width do. Check every pool on a plate."
            : "One spot seen in this system is no proof of purity: what runs alike or does not "
              "show here stays unseen. Check a pool in a second eluent.");
    const auto &pools = result.pooling.components;
    const auto has_recovery = [](const auto &pool) { return pool.recovery.has_value(); };
    if (std::any_of(pools.begin(), pools.end(), has_recovery)) {
        const bool by_volume = std::all_of(pools.begin(), pools.end(), [](const auto &pool) {
            return !pool.recovery || pool.recovery->by_volume;
        });
        notes.push_back(fmt::format(
            "Shares take the intensity as proportional to the amount within one component{}; "
            "components are never compared by it.",
            by_volume ? ", times the fraction's volume" : ", equal volumes where none are given"));
    }
    return notes;
}

} // namespace cospot

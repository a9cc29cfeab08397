#include "pool/pool_text.h"

#include "document/caution.h"
#include "document/probability_text.h"
#include "pool/pool_picture.h"
#include "pool/pool_words.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <vector>

namespace cospot {

namespace {

using fractions::ComponentPool;
using fractions::PartialSum;

constexpr std::size_t kIndent = 4;

/// "31.4 mg" or "31.4 mg (4 of 5 known)"; empty where nothing is known.
std::string sum_text(const PartialSum &sum, std::string_view unit) {
    if (sum.known == 0) {
        return "";
    }
    return sum.known == sum.of
               ? fmt::format("{:.4g} {}", sum.total, unit)
               : fmt::format("{:.4g} {} ({} of {} known)", sum.total, unit, sum.known, sum.of);
}

/// ", 31.4 mg, 40 mL" of what is known.
std::string amounts_text(const PartialSum &mass_mg, const PartialSum &volume_ml) {
    std::string text;
    for (const std::string &part : {sum_text(mass_mg, "mg"), sum_text(volume_ml, "mL")}) {
        text += part.empty() ? "" : ", " + part;
    }
    return text;
}

std::string recovery_text(const ComponentPool &pool, const std::string &component) {
    if (!pool.recovery) {
        return "";
    }
    const std::string holds = pool.one_spot.size() == 1 ? "it holds" : "they hold";
    if (pool.mixed.empty()) {
        return holds + " all of the intensity of " + component;
    }
    return fmt::format("{} {}{:.0f} % of the intensity of {}; with the mixed {} all of it", holds,
                       pool.recovery->is_lower_bound ? "at least " : "",
                       100.0 * pool.recovery->one_spot, component, numbers_text(pool.mixed));
}

std::string combine_text(const ComponentPool &pool, const fractions::Component &component,
                         bool is_trace) {
    if (pool.one_spot.empty()) {
        return wrapped(fmt::format("! no fraction shows {} alone: re-run {}", component.name,
                                   numbers_text(pool.mixed)),
                       kIndent);
    }
    const bool is_single = pool.one_spot.size() == 1;
    std::string text =
        fmt::format("{} {}: {}{}", is_single ? "keep" : "combine", numbers_text(pool.one_spot),
                    is_trace ? "one band seen by the detector" : "one spot seen in this system",
                    amounts_text(pool.one_spot_mass_mg, pool.one_spot_volume_ml));
    text = wrapped(text, kIndent);
    if (const std::string recovery = recovery_text(pool, component.name); !recovery.empty()) {
        text += wrapped(recovery, kIndent);
    }
    return text;
}

std::string heading(const PoolResult &result, std::size_t index, const Style &style) {
    const fractions::Component &component = result.run.components[index];
    std::string text = component.name;
    if (component.rf) {
        text += fmt::format("   Rf {:.2f}", *component.rf);
    }
    const int first = result.run.fractions[component.spots.front().fraction].number;
    const int last = result.run.fractions[component.spots.back().fraction].number;
    text += fmt::format("   fraction{} {}", first == last ? "" : "s", ranges_text({{first, last}}));
    if (result.target && result.target->component == index) {
        text += "   wanted";
    }
    return style.strong(text) + '\n';
}

std::string component_text(const PoolResult &result, std::size_t index, const Style &style) {
    const ComponentPool &pool = result.pooling.components[index];
    std::string text = heading(result, index, style);
    if (!result.candidates.empty()) {
        text += wrapped("may be " + printable(candidates_text(result.candidates[index])), kIndent);
    }
    text += combine_text(pool, result.run.components[index], result.run.is_trace);
    std::vector<int> weak; // of those to combine
    std::set_intersection(pool.weak_edges.begin(), pool.weak_edges.end(), pool.one_spot.begin(),
                          pool.one_spot.end(), std::back_inserter(weak));
    if (!weak.empty()) {
        text += wrapped(fmt::format("weak edge {}: below {:.0f} % of its strongest {}; a neighbour "
                                    "hides there most easily, so leave out what the yield can "
                                    "spare",
                                    numbers_text(weak), 100.0 * fractions::kWeakShare,
                                    result.run.is_trace ? "signal" : "spot"),
                        kIndent);
    }
    return text;
}

/// The advice on the wanted component in one sentence; its faults stand with the warnings.
std::string target_text(const PoolResult &result) {
    if (!result.target || !result.target->component) {
        return "";
    }
    const std::size_t index = *result.target->component;
    const ComponentPool &pool = result.pooling.components[index];
    std::string text = "Wanted: " + result.run.components[index].name;
    if (result.target->probability) {
        text += fmt::format(" ({} or what runs like it, {})", result.target->asked,
                            probability_text(*result.target->probability));
    }
    if (!pool.one_spot.empty()) {
        text += ", combine " + numbers_text(pool.one_spot);
    }
    if (!pool.mixed.empty()) {
        text += "; re-run " + numbers_text(pool.mixed) + " for the rest";
    }
    if (!pool.not_seen.empty()) {
        text += "; spot " + ranges_text(pool.not_seen) + " first";
    }
    return wrapped(printable(text), 0) + '\n';
}

std::string leftovers_text(const PoolResult &result) {
    std::string text;
    for (const fractions::MixedPool &mixed : result.pooling.mixed) {
        text += wrapped(fmt::format("Keep apart {}: {} together{}; re-run, or leave out",
                                    numbers_text(mixed.fractions),
                                    components_text(mixed.components, result.run),
                                    amounts_text(mixed.mass_mg, mixed.volume_ml)),
                        0);
    }
    if (!result.pooling.no_spot.empty()) {
        text +=
            wrapped(fmt::format("Nothing seen in {}: not proven empty; {} before they are "
                                "discarded",
                                numbers_text(result.pooling.no_spot),
                                result.run.is_trace ? "spot them on a plate" : "try another stain"),
                    0);
    }
    if (!result.pooling.not_seen.empty()) {
        text += wrapped(fmt::format("Not looked at: {}", ranges_text(result.pooling.not_seen)), 0);
    }
    if (!result.pooling.open_start.empty()) {
        text += wrapped(fmt::format("{}, the first fraction looked at, shows {} already: look at "
                                    "those before it",
                                    result.run.fractions.front().number,
                                    components_text(result.pooling.open_start, result.run)),
                        0);
    }
    if (!result.pooling.open_end.empty()) {
        text +=
            wrapped(fmt::format("{}, the last fraction looked at, still shows {}: look further, "
                                "or go on collecting",
                                result.run.fractions.back().number,
                                components_text(result.pooling.open_end, result.run)),
                    0);
    }
    return text;
}

std::string balance_text(const PoolResult &result) {
    const PartialSum sum = collected_mg(result);
    if (sum.known == 0) {
        return "";
    }
    std::string text = fmt::format("All fractions: {}", sum_text(sum, "mg"));
    if (result.loaded_mg) {
        text += fmt::format(", {:.0f} % of the {:.4g} mg loaded",
                            100.0 * sum.total / *result.loaded_mg, *result.loaded_mg);
    }
    return wrapped(text + "; solvent left in them counts too", 0);
}

std::string attention_text(const PoolResult &result) {
    std::string text;
    for (const fractions::Warning &warning : result.warnings) {
        text += wrapped("! " + printable(warning_text(warning, result.run)), 0);
    }
    if (const std::string fault = target_fault(result); !fault.empty()) {
        text += wrapped("! " + printable(fault), 0);
    }
    return text;
}

/// Blank line before what is not empty.
std::string section(const std::string &text) {
    return text.empty() ? "" : text + '\n';
}

} // namespace

std::string pool_text(const PoolResult &result, const Style &style) {
    std::string text = pool_picture(result) + '\n' + target_text(result);
    for (std::size_t i = 0; i < result.run.components.size(); ++i) {
        text += component_text(result, i, style);
    }
    if (result.run.components.empty()) {
        text += "Nothing was seen in any fraction.\n";
    }
    text += '\n' + section(leftovers_text(result) + balance_text(result)) +
            section(attention_text(result));
    for (const std::string &note : result.notes) {
        text += wrapped(printable(note), 0);
    }
    for (const std::string &assumption : pool_assumptions(result)) {
        text += wrapped(assumption, 0);
    }
    if (!result.candidates.empty()) {
        text += wrapped(kRetentionIsNoProof, 0);
    }
    text += '\n';
    for (const std::string_view caution : kColumnCautions) {
        text += wrapped(caution, 0);
    }
    return text;
}

} // namespace cospot

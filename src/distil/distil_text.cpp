#include "distil/distil_text.h"

#include "distil/distil_words.h"
#include "shared/text.h"

#include <fmt/format.h>

namespace cospot {

namespace {

using distillation::DistilledPeak;
using distillation::DistilledSample;
using distillation::Recovered;
using distillation::Standing;

std::string peak_line(const DistilledPeak &peak) {
    const std::string boiling = peak.boiling.celsius ? fmt::format("{:.1f}", *peak.boiling.celsius)
                                                     : std::string(to_text(peak.boiling.position));
    return fmt::format("  {} {:>9.3f} {:>8}  {:>17}\n", padded(peak.name, 24),
                       peak.retention_time_min,
                       peak.is_solvent ? "" : fmt::format("{:.2f}", peak.per_cent),
                       peak.is_solvent ? "solvent, left out" : boiling);
}

std::string recovered_cell(const Recovered &row) {
    return fmt::format("{:>5.1f} %  {:<15}", row.per_cent,
                       row.celsius ? fmt::format("{:.1f}", *row.celsius)
                                   : std::string(to_text(row.place)));
}

/// Three columns, read downwards.
std::string recovery_text(const std::vector<Recovered> &table) {
    constexpr std::size_t columns = 3;
    const std::size_t rows = (table.size() + columns - 1) / columns;
    std::string text;
    for (std::size_t row = 0; row < rows; ++row) {
        std::string line;
        for (std::size_t i = row; i < table.size(); i += rows) {
            line += "  " + recovered_cell(table[i]);
        }
        text += without_end_blanks(line) + '\n';
    }
    return text;
}

std::string sentences(const std::vector<std::string> &words) {
    std::string text;
    for (const std::string &sentence : words) {
        text += wrapped(sentence, 2);
    }
    return text;
}

std::string compound_line(const distillation::ComparedCompound &compound) {
    const std::string_view mark = compound.standing == Standing::usual  ? ""
                                  : compound.standing == Standing::late ? "late"
                                                                        : "early";
    std::string line = fmt::format(
        "  {:>6} {:>8}  {} {:>7.1f} {:>8.0f} {:>12} {:>6}", compound.place, compound.expected_place,
        padded(compound.name, 24), compound.index, compound.by_index,
        fmt::format("{:.0f} ± {:.0f}", compound.estimated, compound.standard_error), mark);
    return without_end_blanks(line) + '\n';
}

} // namespace

std::string distilled_sample_text(const DistilledSample &sample, const Style &style) {
    const auto &members = sample.scale.members;
    std::string text = style.strong(fitted(printable(sample.name), 38) +
                                    ": boiling points on the scale of n-alkanes") +
                       '\n';
    text += wrapped(fmt::format("ladder C{} to C{}, {:g} to {:g} °C (ASTM D2887, from memory)",
                                members.front().carbon, members.back().carbon,
                                members.front().celsius, members.back().celsius),
                    2);
    text += fmt::format("  {} {:>9} {:>8}  {:>17}\n", padded("peak", 24), "tR/min", "area %",
                        "boiling point/°C");
    for (const DistilledPeak &peak : sample.peaks) {
        text += peak_line(peak);
    }
    text +=
        sentences(off_scale_words(sample.before_per_cent, sample.behind_per_cent, sample.scale)) +
        sentences(ladder_notes(sample.scale));
    text +=
        '\n' + style.strong("Distillation: °C at which so much of the area is recovered") + '\n';
    text += sample.recovered.empty() ? "  no area lies on the scale\n"
                                     : recovery_text(sample.recovered);
    text += wrapped(spread_words(sample.uses_widths), 2);
    return text + '\n' + wrapped(kAreaIsNoMass, 0);
}

std::string volatility_order_text(const distillation::VolatilityOrder &order, const Style &style) {
    const bool lists_all = order.compounds.size() <= kMostOrdered;
    std::string text =
        style.strong("Order by boiling point on " + fitted(printable(order.system), 50)) + '\n';
    text += order.stationary_phase.empty()
                ? ""
                : wrapped("stationary phase: " + printable(order.stationary_phase), 2);
    text += wrapped(phase_rule(order.phase), 2);
    text +=
        wrapped(fmt::format("{} of {} pairs of {} compounds leave in the order of their boiling "
                            "points from structure.{}",
                            order.ordered_pairs, order.pairs, order.compounds.size(),
                            lists_all ? "" : " Those that stand out:"),
                2);
    text += fmt::format("  {:>6} {:>8}  {} {:>7} {:>8} {:>12}\n", "leaves", "expected",
                        padded("compound", 24), "index", "by index", "estimated/°C");
    std::size_t standing_out = 0;
    for (const distillation::ComparedCompound &compound : order.compounds) {
        const bool stands_out = compound.standing != Standing::usual;
        standing_out += stands_out ? 1 : 0;
        if (lists_all || stands_out) {
            text += compound_line(compound);
        }
    }
    text +=
        wrapped(fmt::format("{} of {} stand out: late, held longer than the boiling point says; "
                            "early, let go sooner. {}",
                            standing_out, order.compounds.size(),
                            difference_words(order.usual_difference, order.spread)),
                2);
    if (order.left_out > 0) {
        text += wrapped(fmt::format("{} left out, without boiling point from structure or with an "
                                    "index outside 500 to 4400.",
                                    order.left_out),
                        2);
    }
    return text;
}

} // namespace cospot

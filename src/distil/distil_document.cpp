#include "distil/distil_document.h"

#include "document/caution.h"
#include "document/cells.h"
#include "drawing/boiling_axis.h"
#include "drawing/chromatogram_picture.h"
#include "drawing/distillation_picture.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace cospot {

namespace {

using distillation::ComparedCompound;
using distillation::DistilledPeak;
using distillation::DistilledSample;
using distillation::Recovered;
using distillation::Standing;
using distillation::VolatilityOrder;

/// Of more compounds in an order than these only those that stand out are listed.
constexpr std::size_t kMostOrdered = 40;
/// The last alkane whose boiling point another table confirms (alkane_boiling_points.tsv).
constexpr int kLastConfirmed = 37;

/// "s: 5 % of the area is recovered at 126.0 °C, 50 % at 235.0 °C, 95 % at 287.0 °C."
std::string distillation_verdict(const DistilledSample &sample) {
    std::string words;
    for (const Recovered &row : sample.recovered) {
        const bool is_told = row.per_cent == 5.0 || row.per_cent == 50.0 || row.per_cent == 95.0;
        if (is_told && row.celsius) {
            words += fmt::format("{}{:g} % {}at {:.1f} °C", words.empty() ? "" : ", ", row.per_cent,
                                 words.empty() ? "of the area is recovered " : "", *row.celsius);
        }
    }
    return sample.name + ": " +
           (words.empty() ? "too little of the area lies on the scale" : words) + '.';
}

/// What the area before and behind the ladder means; nothing where there is none.
std::vector<std::string> off_scale_words(const DistilledSample &sample) {
    const auto &members = sample.scale.members;
    std::vector<std::string> words;
    if (sample.before_per_cent > 0.0) {
        words.push_back(fmt::format("{:.2f} % of the area lies before the ladder: it boils below "
                                    "{:g} °C, how far is not said. Is it the solvent "
                                    "(--solvent-until MIN)?",
                                    sample.before_per_cent, members.front().celsius));
    }
    if (sample.behind_per_cent > 0.0) {
        words.push_back(fmt::format("{:.2f} % of the area lies behind the ladder: it boils above "
                                    "{:g} °C. A longer ladder would tell.",
                                    sample.behind_per_cent, members.back().celsius));
    }
    return words;
}

Figure distillation_figure(const DistilledSample &sample) {
    std::vector<DrawnRecovery> drawn;
    for (const Recovered &row : sample.recovered) {
        if (row.celsius) {
            drawn.push_back({fmt::format("{:g}", row.per_cent), row.per_cent, *row.celsius});
        }
    }
    if (drawn.empty()) {
        return {};
    }
    const bool has_rest = sample.before_per_cent + sample.behind_per_cent > 0.0;
    return {distillation_picture(drawn, sample.before_per_cent, sample.behind_per_cent,
                                 "Distillation curve of " + sample.name),
            std::string("The distillation curve.") +
                (has_rest ? " Hatched: area off the ladder." : "")};
}

Table recovery_table_of(const DistilledSample &sample) {
    Table table{.label = "Temperature at which so much of the area is recovered",
                .columns = {{"Recovered, %", true}, {"Boiling point, °C", true}, {"Remarks"}}};
    for (const Recovered &row : sample.recovered) {
        table.rows.push_back({.cells = {number_cell(row.per_cent, 1),
                                        number_cell(row.celsius, 1),
                                        {row.celsius ? "" : std::string(to_text(row.place))}},
                              .mark = fmt::format("{:g}", row.per_cent)});
    }
    return table;
}

Section distillation_section(const DistilledSample &sample) {
    Section section{"Distillation", "", {}, {}, true};
    if (sample.recovered.empty()) {
        section.blocks.emplace_back(Paragraph{"No area lies on the scale."});
        return section;
    }
    section.blocks.emplace_back(Beside{{distillation_figure(sample), recovery_table_of(sample)}});
    section.blocks.emplace_back(
        Paragraph{sample.uses_widths
                      ? "Each peak's area counts evenly from its start to its end."
                      : "Between apexes the cumulative area is a straight line; start and end of "
                        "every peak, within the ladder, would make it sharper.",
                  Paragraph::Role::small});
    return section;
}

/// Why a peak has no boiling point; empty where it has one.
std::string remark_on(const DistilledPeak &peak) {
    if (peak.is_solvent) {
        return "solvent, left out";
    }
    return peak.boiling.celsius ? "" : std::string(distillation::to_text(peak.boiling.position));
}

Figure chromatogram_of(const DistilledSample &sample) {
    std::vector<DrawnPeak> peaks;
    for (std::size_t i = 0; i < sample.peaks.size(); ++i) {
        const DistilledPeak &peak = sample.peaks[i];
        if (peak.is_solvent) {
            continue;
        }
        const auto &celsius = peak.boiling.celsius;
        peaks.push_back({.key = fmt::to_string(i + 1),
                         .title = peak.name + ": " +
                                  (celsius ? fmt::format("{:.1f} °C", *celsius) : remark_on(peak)),
                         .retention_time_min = peak.retention_time_min,
                         .area = peak.area,
                         .height = peak.height,
                         .start_min = peak.start_min,
                         .end_min = peak.end_min,
                         .width_half_min = peak.width_half_min,
                         .kind = celsius ? PeakKind::listed : PeakKind::not_compared});
    }
    constexpr double most_ticks = 14;
    UpperAxis upper{"boiling point, °C",
                    boiling_ticks(sample.scale, peaks.front().retention_time_min,
                                  peaks.back().retention_time_min, most_ticks)};
    const ChromatogramPicture picture =
        chromatogram_picture(peaks, "Chromatogram of " + sample.name, upper);
    std::string caption = picture.caption + " Filled: on the scale; empty: off it.";
    if (peaks.size() < sample.peaks.size()) {
        caption +=
            fmt::format(" Not drawn: {} of the solvent.", sample.peaks.size() - peaks.size());
    }
    return {picture.svg, std::move(caption)};
}

Table distilled_peaks_table(const DistilledSample &sample) {
    Table table{.label = "Peaks in the order in which they leave",
                .columns = {{"No.", true},
                            {"Peak"},
                            {"tR, min", true},
                            {"Area %", true},
                            {"Boiling point, °C", true},
                            {"Remarks"}},
                .heading_column = 1,
                .is_sortable = true};
    for (std::size_t i = 0; i < sample.peaks.size(); ++i) {
        const DistilledPeak &peak = sample.peaks[i];
        table.rows.push_back(
            {.cells = {count_cell(i + 1),
                       {peak.name},
                       number_cell(peak.retention_time_min, 3),
                       peak.is_solvent ? Cell{} : number_cell(peak.per_cent, 2),
                       peak.is_solvent ? Cell{} : number_cell(peak.boiling.celsius, 1),
                       {remark_on(peak)}},
             .mark = fmt::to_string(i + 1)});
    }
    return table;
}

/// The ladder, its gaps, and members without boiling point.
std::vector<std::string> ladder_notes(const quantities::BoilingScale &scale) {
    const auto &members = scale.members;
    std::vector<std::string> notes{
        fmt::format("Ladder C{} to C{}, {:g} to {:g} °C (ASTM D2887).{}", members.front().carbon,
                    members.back().carbon, members.front().celsius, members.back().celsius,
                    members.back().carbon > kLastConfirmed
                        ? fmt::format(" From C{} on from memory: other tables say 2 to 3 °C more.",
                                      kLastConfirmed + 1)
                        : "")};
    std::vector<std::string> gaps;
    for (std::size_t i = 1; i < members.size(); ++i) {
        if (members[i].carbon - members[i - 1].carbon > 1) {
            gaps.push_back(fmt::format("C{} to C{}", members[i - 1].carbon, members[i].carbon));
        }
    }
    if (!gaps.empty()) {
        notes.push_back(fmt::format("Interpolated across {}: {}.",
                                    gaps.size() == 1 ? "a gap" : "gaps", fmt::join(gaps, ", ")));
    }
    std::vector<std::string> names;
    for (const int carbon : scale.left_out) {
        names.push_back(fmt::format("C{}", carbon));
    }
    if (!names.empty()) {
        notes.push_back(fmt::format("Left out of the ladder: {}. The table of boiling points has "
                                    "C5 to C44.",
                                    fmt::join(names, ", ")));
    }
    return notes;
}

void add_sample(std::vector<Block> &blocks, const DistilledSample &sample) {
    blocks.emplace_back(Paragraph{distillation_verdict(sample), Paragraph::Role::verdict});
    if (std::vector<std::string> words = off_scale_words(sample); !words.empty()) {
        blocks.emplace_back(Section{
            "Look at this first", "", {}, {List{"", std::move(words), List::Role::warnings}}});
    }
    blocks.emplace_back(distillation_section(sample));
    blocks.emplace_back(Section{
        "Chromatogram", "", {}, {chromatogram_of(sample), distilled_peaks_table(sample)}, true});
    blocks.emplace_back(Section{"The scale", "", {}, {List{"", ladder_notes(sample.scale)}}});
}

Table order_table(const VolatilityOrder &order) {
    const bool lists_all = order.compounds.size() <= kMostOrdered;
    Table table{.label = "Order of leaving beside the order of boiling points",
                .caption = std::string(lists_all ? "In the order in which they leave"
                                                 : "Those that come early or late, in the order in "
                                                   "which they leave") +
                           "; boiling points in °C, by index and estimated from structure",
                .columns = {{"Place", true},
                            {"Expected", true},
                            {"Compound"},
                            {"Index", true},
                            {"By index", true},
                            {"Estimated", true},
                            {"Comes"}},
                .heading_column = 2,
                .is_sortable = true};
    for (const ComparedCompound &one : order.compounds) {
        const bool stands_out = one.standing != Standing::usual;
        if (!lists_all && !stands_out) {
            continue;
        }
        table.rows.push_back(
            {{count_cell(one.place),
              count_cell(one.expected_place),
              {one.name},
              number_cell(one.index, 1),
              number_cell(one.by_index, 0),
              {fmt::format("{:.0f} ± {:.0f}", one.estimated, one.standard_error), one.estimated},
              stands_out ? Cell{std::string(to_text(one.standing)), {}, Emphasis::badge}
                         : Cell{}}});
    }
    return table;
}

std::vector<std::string> order_notes(const VolatilityOrder &order) {
    const auto standing_out =
        std::count_if(order.compounds.begin(), order.compounds.end(),
                      [](const ComparedCompound &one) { return one.standing != Standing::usual; });
    const double difference = std::round(order.usual_difference) + 0.0; // never "-0"
    std::vector<std::string> notes{
        fmt::format("{} of {} stand{} out: late, held longer than the boiling point says; early, "
                    "let go sooner.",
                    standing_out, order.compounds.size(), standing_out == 1 ? "s" : ""),
        fmt::format("The usual difference, by index less estimated, is {:+.0f} °C, the spread "
                    "{:.0f} °C.",
                    difference, order.spread)};
    if (order.left_out > 0) {
        notes.push_back(counted(order.left_out, "compound") +
                        " left out: no boiling point from structure, or an index outside 500 to "
                        "4400.");
    }
    return notes;
}

Section order_section(const VolatilityOrder &order) {
    Section section{"Order by boiling point on " + order.system, "", {}, {}};
    section.blocks.emplace_back(
        Paragraph{fmt::format("{} of {} of {} leave{} in the order of their boiling points from "
                              "structure.",
                              order.ordered_pairs, counted(order.pairs, "pair"),
                              counted(order.compounds.size(), "compound"),
                              order.ordered_pairs == 1 ? "s" : ""),
                  Paragraph::Role::verdict});
    const std::string rule(distillation::phase_rule(order.phase));
    if (order.phase == quantities::GasPhase::polar) {
        section.blocks.emplace_back(List{"", {rule}, List::Role::warnings});
    } else {
        section.blocks.emplace_back(Paragraph{rule});
    }
    if (!order.stationary_phase.empty()) {
        section.blocks.emplace_back(Paragraph{"Stationary phase: " + order.stationary_phase + '.'});
    }
    section.blocks.emplace_back(order_table(order));
    section.blocks.emplace_back(List{"", order_notes(order)});
    return section;
}

DataTable peaks_data(const DistilledSample &sample) {
    DataTable data{{"peak", "tR", "area", "per_cent", "celsius", "position", "solvent"}};
    for (const DistilledPeak &peak : sample.peaks) {
        data.rows.push_back(
            {peak.name, peak.retention_time_min, peak.area,
             peak.is_solvent ? Datum() : Datum(peak.per_cent), datum_of(peak.boiling.celsius),
             std::string(distillation::to_text(peak.boiling.position)), peak.is_solvent});
    }
    return data;
}

DataTable order_data(const VolatilityOrder &order) {
    DataTable data{{"compound", "index", "celsius_by_index", "celsius_estimated", "standard_error",
                    "place", "expected_place", "standing"}};
    for (const ComparedCompound &one : order.compounds) {
        data.rows.push_back({one.name, one.index, one.by_index, one.estimated, one.standard_error,
                             static_cast<std::int64_t>(one.place),
                             static_cast<std::int64_t>(one.expected_place),
                             std::string(to_text(one.standing))});
    }
    return data;
}

} // namespace

Document distil_document(const DistilResult &result) {
    Document document;
    if (result.sample) {
        document.title = "Simulated distillation of " + result.sample->name;
        document.lead = "Peaks on the boiling points of the n-alkanes run with them.";
        document.cautions.emplace_back(kAreaIsNoMass);
        document.data = peaks_data(*result.sample);
        add_sample(document.blocks, *result.sample);
    } else {
        document.title = "Do compounds leave in the order of their boiling points?";
        document.lead = "What the library holds of a system beside boiling points from structure.";
        document.data = order_data(result.order.value());
    }
    if (result.order) {
        document.blocks.emplace_back(order_section(*result.order));
    }
    document.cautions.emplace_back(kGasCaution);
    document.cautions.emplace_back(kRetentionIsNoProof);
    return document;
}

} // namespace cospot

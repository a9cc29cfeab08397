#include "resolve/resolve_document.h"

#include "document/caution.h"
#include "document/cells.h"
#include "drawing/window_diagram_text.h"
#include "evidence/elution_order.h"
#include "quantities/peak_shape.h"
#include "resolve/resolve_words.h"
#include "resolve/window_diagram_of.h"
#include "resolve/windows.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace cospot {

namespace {

using namespace resolve;

constexpr const char *kOutsideMeasured = "not measured there";

const std::string &resolved_name(const Answer &answer, std::size_t compound) {
    return answer.question.compounds[compound].name;
}

const CurvePoint &best_point(const Answer &answer) {
    return answer.choice.curve[answer.choice.best];
}

bool has_pairs(const Answer &answer) {
    return answer.question.compounds.size() > 1;
}

std::string resolve_verdict(const Answer &answer) {
    return has_pairs(answer)
               ? "Best: " + run_words(answer, best_point(answer)) + ", the worst pair."
               : "One compound: nothing is to be resolved.";
}

Table windows_table(const Answer &answer) {
    Table table{.label = "Windows of the diagram",
                .columns = {{"Window", true},
                            {"Fractions", true},
                            {"Best at", true},
                            {"Resolution", true},
                            {"Worst pair there"},
                            {"k"}},
                .heading_column = 0};
    const auto &curve = answer.choice.curve;
    const std::vector<Window> windows = windows_of(curve);
    for (std::size_t i = 0; i < windows.size(); ++i) {
        const CurvePoint &top = curve[windows[i].top];
        table.rows.push_back(
            {{count_cell(i + 1),
              {fmt::format("{:.3f}–{:.3f}", curve[windows[i].first].fraction,
                           curve[windows[i].last].fraction)},
              number_cell(top.fraction, 3),
              number_cell(top.resolution, 2),
              {pair_words(answer, *top.critical)},
              {top.outside_window > 0 ? fmt::format("{} outside", top.outside_window) : ""}}});
    }
    return table;
}

Section diagram_section(const Answer &answer) {
    const DrawnWindowDiagram diagram = window_diagram_of(answer);
    const std::string caption = fmt::format(
        "Resolution of each pair over the volume fraction of {}, after Purnell with plate number "
        "{:.0f} ({}) for every peak. The windows lie below the lowest line: there every pair is "
        "resolved at least so well.",
        answer.modifier, answer.question.plate_number, answer.plate_basis);
    Section section{"Window diagram", "", {}, {}};
    section.blocks.push_back(Figure{window_diagram_picture(diagram, PictureFrame::page), caption,
                                    window_diagram_text(diagram)});
    section.blocks.push_back(windows_table(answer));
    section.blocks.push_back(List{"", remarks_on_best(answer)});
    return section;
}

std::string k_range(const Answer &answer, std::size_t compound, double fraction) {
    if (!answer.choice.scatter) {
        return "not known";
    }
    const KInterval interval =
        k_interval(answer.choice.lines[compound], *answer.choice.scatter, fraction);
    return k_text(interval.low) + "–" + k_text(interval.high);
}

/// Resolution to the compound that leaves next; none of the last.
std::optional<double> resolution_to_next(const Answer &answer, const CurvePoint &point,
                                         const std::vector<std::size_t> &order, std::size_t place) {
    if (place + 1 == order.size()) {
        return std::nullopt;
    }
    return quantities::resolution_from_plate_number(
        point.k[order[place]], point.k[order[place + 1]], answer.question.plate_number);
}

bool is_measured_at(const RetentionLine &line, double fraction) {
    return fraction >= line.low && fraction <= line.high;
}

/// The run at the best composition, first to leave first.
Section run_section(const Answer &answer) {
    const CurvePoint &best = best_point(answer);
    Table table{.label = "The compounds at the best fraction, first to leave first",
                .columns = {{"Compound"},
                            {"k", true},
                            {"9 of 10 between", true},
                            {"tR, min", true},
                            {"Resolution", true},
                            {""}}};
    const std::vector<std::size_t> order = elution_order(best.k);
    for (std::size_t place = 0; place < order.size(); ++place) {
        const std::size_t i = order[place];
        const auto next = resolution_to_next(answer, best, order, place);
        table.rows.push_back(
            {{{resolved_name(answer, i)},
              {k_text(best.k[i]), best.k[i]},
              {k_range(answer, i, best.fraction)},
              answer.hold_up_min ? number_cell(*answer.hold_up_min * (1.0 + best.k[i]), 2) : Cell{},
              number_cell(next, 2),
              {is_measured_at(answer.choice.lines[i], best.fraction) ? "" : kOutsideMeasured}}});
    }
    return {
        fmt::format("The run at fraction {:.3f}", best.fraction),
        "",
        {},
        {std::move(table), Paragraph{fmt::format("First to leave first; resolution to the next, "
                                                 "with plate number {:.0f} ({}).",
                                                 answer.question.plate_number, answer.plate_basis),
                                     Paragraph::Role::small}}};
}

Section crossings_section(const Answer &answer) {
    const Choice &choice = answer.choice;
    Section section{"Changes of order", "", {}, {}};
    if (choice.crossings.empty()) {
        section.blocks.push_back(Paragraph{
            fmt::format("None between {:.3f} and {:.3f}.", choice.range.low, choice.range.high)});
        return section;
    }
    Table table{.label = "Fractions at which two compounds leave together",
                .columns = {{"Fraction", true}, {"Leaves first below"}, {"Leaves first above"}}};
    for (const Crossing &crossing : choice.crossings) {
        table.rows.push_back({{number_cell(crossing.fraction, 3),
                               {resolved_name(answer, crossing.compounds.first)},
                               {resolved_name(answer, crossing.compounds.second)}}});
    }
    section.blocks.push_back(std::move(table));
    return section;
}

/// First to leave first; what is not told last.
std::vector<std::size_t> gradient_order(const std::vector<GradientAnswer> &answers) {
    std::vector<std::size_t> order(answers.size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return answers[a].retention &&
               (!answers[b].retention ||
                answers[a].retention->time_min < answers[b].retention->time_min);
    });
    return order;
}

Section gradient_section(const Answer &answer) {
    Table table{.label = "Times in the gradient, first to leave first",
                .columns = {{"Compound"}, {"tR, min", true}, {"Fraction", true}, {"Leaves"}, {""}}};
    for (const std::size_t i : gradient_order(answer.choice.gradient)) {
        const GradientAnswer &one = answer.choice.gradient[i];
        table.rows.push_back(
            {{{resolved_name(answer, i)},
              one.retention ? number_cell(one.retention->time_min, 2) : Cell{},
              number_cell(one.fraction, 3),
              {std::string(stage_words(one))},
              {one.retention && one.is_outside_measured ? kOutsideMeasured : ""}}});
        if (!one.retention) {
            table.rows.back().notes.emplace_back(kLeavesTooFar);
        }
    }
    return {"Gradient", "", {}, {Paragraph{gradient_words(answer)}, std::move(table)}};
}

Table lines_table(const Answer &answer) {
    Table table{.label = "The lines of log k over the fraction",
                .caption = "log k = log k_w - S phi; off by: the reading farthest from its line",
                .columns = {{"Compound"},
                            {"log k_w", true},
                            {"S", true},
                            {"Measured", true},
                            {"Readings", true},
                            {"Off by", true},
                            {"log P", true},
                            {""}},
                .is_sortable = true};
    for (std::size_t i = 0; i < answer.choice.lines.size(); ++i) {
        const RetentionLine &line = answer.choice.lines[i];
        const auto log_p = answer.question.compounds[i].log_p;
        const double off = line.worst_factor ? 100.0 * std::abs(*line.worst_factor - 1.0) : 0.0;
        table.rows.push_back({{{resolved_name(answer, i)},
                               number_cell(line.law.log_k_weak, 3),
                               number_cell(line.law.slope, 2),
                               {fmt::format("{:.3f}–{:.3f}", line.low, line.high), line.low},
                               count_cell(line.readings),
                               {line.worst_factor ? fmt::format("{:.1f} %", off) : "exact", off},
                               number_cell(log_p, 1),
                               {line.is_bent ? "bends" : ""}}});
    }
    return table;
}

Section lines_section(const Answer &answer) {
    std::vector<std::string> notes = basis_words(answer);
    if (!answer.systems.empty()) {
        notes.push_back(fmt::format("Readings are from {}.", fmt::join(answer.systems, ", ")));
    }
    notes.insert(notes.end(), answer.notes.begin(), answer.notes.end());
    notes.push_back(elution_principle(mechanism_of(answer.question.phase)));
    return {"What this rests on", "", {}, {lines_table(answer), List{"", std::move(notes)}}};
}

/// One row a compound, in the order in which they were asked about.
DataTable resolve_data(const Answer &answer) {
    DataTable data{{"compound", "log_k_w", "S", "measured_from", "measured_to", "readings",
                    "worst_factor", "bent", "log_p", "fraction", "k", "k_low", "k_high", "tR",
                    "resolution_to_next", "outside_measured", "gradient_tR"}};
    const std::vector<std::size_t> order =
        has_pairs(answer) ? elution_order(best_point(answer).k) : std::vector<std::size_t>{};
    for (std::size_t i = 0; i < answer.choice.lines.size(); ++i) {
        const RetentionLine &line = answer.choice.lines[i];
        std::vector<Datum> row{
            resolved_name(answer, i),
            line.law.log_k_weak,
            line.law.slope,
            line.low,
            line.high,
            static_cast<std::int64_t>(answer.question.compounds[i].points.size()),
            datum_of(line.worst_factor),
            line.is_bent,
            datum_of(answer.question.compounds[i].log_p)};
        if (has_pairs(answer)) {
            const CurvePoint &best = best_point(answer);
            const auto place =
                static_cast<std::size_t>(std::find(order.begin(), order.end(), i) - order.begin());
            const auto interval =
                answer.choice.scatter
                    ? std::optional(k_interval(line, *answer.choice.scatter, best.fraction))
                    : std::nullopt;
            const double k = quantities::retention_factor_at(line.law, best.fraction);
            row.insert(row.end(),
                       {best.fraction, k, interval ? Datum(interval->low) : Datum(),
                        interval ? Datum(interval->high) : Datum(),
                        answer.hold_up_min ? Datum(*answer.hold_up_min * (1.0 + k)) : Datum(),
                        datum_of(resolution_to_next(answer, best, order, place)),
                        !is_measured_at(line, best.fraction)});
        } else {
            row.resize(row.size() + 7);
        }
        const bool has_time =
            !answer.choice.gradient.empty() && answer.choice.gradient[i].retention.has_value();
        row.push_back(has_time ? Datum(answer.choice.gradient[i].retention->time_min) : Datum());
        data.rows.push_back(std::move(row));
    }
    return data;
}

std::string resolve_title(const Answer &answer) {
    constexpr std::size_t most_named = 3;
    const auto &compounds = answer.question.compounds;
    std::vector<std::string> names;
    for (const auto &compound : compounds) {
        names.push_back(compound.name);
    }
    return fmt::format("Which fraction of {} resolves {}?", answer.modifier,
                       compounds.size() > most_named ? counted(compounds.size(), "compound")
                                                     : joined(names));
}

} // namespace

Document resolve_document(const Answer &answer) {
    Document document{.title = resolve_title(answer),
                      .lead = "Isocratic liquid chromatography.",
                      .blocks = {Paragraph{resolve_verdict(answer), Paragraph::Role::verdict}},
                      .cautions = {std::string(kLiquidCaution), std::string(kRetentionIsNoProof)},
                      .data = resolve_data(answer)};
    std::vector<std::string> attention = shortfalls(answer);
    attention.insert(attention.end(), answer.choice.warnings.begin(), answer.choice.warnings.end());
    if (!attention.empty()) {
        document.blocks.push_back(
            Section{"Look at this first", "", {}, {List{"", attention, List::Role::warnings}}});
    }
    if (has_pairs(answer)) {
        document.blocks.push_back(diagram_section(answer));
        document.blocks.push_back(run_section(answer));
        document.blocks.push_back(crossings_section(answer));
    }
    if (answer.choice.wanted) {
        document.blocks.push_back(
            Section{"Wanted retention", "", {}, {Paragraph{wanted_words(answer)}}});
    }
    if (answer.question.gradient) {
        document.blocks.push_back(gradient_section(answer));
    }
    document.blocks.push_back(lines_section(answer));
    return document;
}

} // namespace cospot

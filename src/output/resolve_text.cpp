#include "output/resolve_text.h"

#include "document/caution.h"
#include "explanation/elution_order.h"
#include "output/resolution_map_text.h"
#include "output/resolve_words.h"
#include "quantities/peak_shape.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace cospot {

namespace {

using namespace eluent_choice;

constexpr std::size_t kResolveNameWidth = 28;

std::string fitted_name_of(const Answer &answer, std::size_t compound) {
    return printable(answer.question.compounds[compound].name);
}

std::string sentences_text(const std::vector<std::string> &sentences) {
    std::string text;
    for (const std::string &sentence : sentences) {
        text += wrapped(printable(sentence), 2);
    }
    return text;
}

std::string lines_text(const Answer &answer) {
    std::string text = fmt::format("  {} {:>7} {:>6}  {:<13} {:>8} {:>8}\n",
                                   padded("log k = log k_w - S phi", kResolveNameWidth), "log k_w",
                                   "S", "measured phi", "readings", "off by");
    for (std::size_t i = 0; i < answer.choice.lines.size(); ++i) {
        const RetentionLine &line = answer.choice.lines[i];
        const std::string off =
            line.worst_factor ? fmt::format("{:.1f} %", 100.0 * std::abs(*line.worst_factor - 1.0))
                              : "exact";
        text += fmt::format("  {} {:>7.3f} {:>6.2f}  {:<13} {:>8} {:>8}\n",
                            padded(fitted_name_of(answer, i), kResolveNameWidth), line.law.log_k_weak,
                            line.law.slope, fmt::format("{:.3f}-{:.3f}", line.low, line.high),
                            line.readings, off);
    }
    return text + sentences_text(basis_words(answer));
}

std::string k_interval(const Answer &answer, std::size_t compound, double fraction) {
    if (!answer.choice.scatter) {
        return "not known";
    }
    const auto expected = forecast(answer.choice.lines[compound], *answer.choice.scatter, fraction);
    return fmt::format("{} to {}",
                       k_text(std::pow(10.0, expected.location - expected.half_width())),
                       k_text(std::pow(10.0, expected.location + expected.half_width())));
}

/// The compounds of a run, first to leave first.
std::string run_text(const Answer &answer, const CurvePoint &point) {
    const std::vector<std::size_t> order = elution_order(point.k);
    std::string text = fmt::format(
        "  {} {:>7}  {:<18} {:>8} {:>10}\n", padded("first to leave first", kResolveNameWidth), "k",
        "9 of 10 between", answer.hold_up_min ? "tR/min" : "", "to next");
    for (std::size_t place = 0; place < order.size(); ++place) {
        const std::size_t i = order[place];
        const bool is_last = place + 1 == order.size();
        const double resolution =
            is_last ? 0.0
                    : quantities::resolution_from_plate_number(
                          point.k[i], point.k[order[place + 1]], answer.question.plate_number);
        const std::string time =
            answer.hold_up_min ? fmt::format("{:.2f}", *answer.hold_up_min * (1.0 + point.k[i]))
                               : "";
        std::string line = fmt::format("  {} {:>7}  {:<18} {:>8} {:>10}",
                                       padded(fitted_name_of(answer, i), kResolveNameWidth),
                                       k_text(point.k[i]), k_interval(answer, i, point.fraction),
                                       time, is_last ? "" : fmt::format("{:.2f}", resolution));
        line.erase(line.find_last_not_of(' ') + 1);
        text += line + '\n';
    }
    return text;
}

std::string best_text(const Answer &answer, const Style &style) {
    const CurvePoint &best = answer.choice.curve[answer.choice.best];
    return style.strong("Best composition") + '\n' +
           wrapped(printable(run_words(answer, best)), 2) + run_text(answer, best) +
           wrapped(fmt::format("Resolution after Purnell with N = {:.0f} ({}) for every peak.",
                               answer.question.plate_number, answer.plate_basis),
                   2) +
           sentences_text(shortfalls(answer)) + sentences_text(remarks_on_best(answer));
}

std::string crossings_text(const Answer &answer, const Style &style) {
    std::string text = style.strong("Changes of order") + '\n';
    if (answer.choice.crossings.empty()) {
        return text + wrapped(fmt::format("none between {:.3f} and {:.3f}", answer.choice.range.low,
                                          answer.choice.range.high),
                              2);
    }
    for (const Crossing &crossing : answer.choice.crossings) {
        text += wrapped(fmt::format("at {:.3f}: {} first below, {} first above", crossing.fraction,
                                    fitted_name_of(answer, crossing.compounds.first),
                                    fitted_name_of(answer, crossing.compounds.second)),
                        2);
    }
    return text;
}

std::string wanted_text(const Answer &answer, const Style &style) {
    return style.strong("Wanted retention") + '\n' + wrapped(printable(wanted_words(answer)), 2);
}

std::string gradient_text(const Answer &answer, const Style &style) {
    const auto &answers = answer.choice.gradient;
    std::vector<std::size_t> order(answers.size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return answers[a].retention &&
               (!answers[b].retention ||
                answers[a].retention->time_min < answers[b].retention->time_min);
    });
    std::string text = style.strong("Gradient") + '\n' + wrapped(gradient_words(answer), 2);
    text += fmt::format("  {} {:>8} {:>12}\n", padded("", kResolveNameWidth), "tR/min",
                        "leaves at phi");
    for (const std::size_t i : order) {
        const GradientAnswer &one = answers[i];
        const std::string time =
            one.retention ? fmt::format("{:.2f}", one.retention->time_min) : "none";
        std::string note = one.is_outside_measured ? "outside the measured" : "";
        if (one.retention && one.retention->stage == quantities::GradientStage::before) {
            note += note.empty() ? "before the gradient" : ", before the gradient";
        } else if (one.retention && one.retention->stage == quantities::GradientStage::behind) {
            note += note.empty() ? "after its end" : ", after its end";
        }
        std::string line =
            fmt::format("  {} {:>8} {:>12.3f}  {}", padded(fitted_name_of(answer, i), kResolveNameWidth),
                        time, one.fraction, fitted(note, 27));
        line.erase(line.find_last_not_of(' ') + 1);
        text += line + '\n';
    }
    const bool lacks_one =
        std::any_of(answers.begin(), answers.end(), [](const auto &one) { return !one.retention; });
    return text + (lacks_one ? wrapped(fmt::format("none: it {}", kLeavesTooFar), 2) : "");
}

} // namespace

std::string resolve_text(const Answer &answer, const Style &style) {
    std::string text =
        style.strong(fmt::format("Retention over the volume fraction phi of {}, {} compound{}",
                                 printable(answer.modifier), answer.question.compounds.size(),
                                 answer.question.compounds.size() == 1 ? "" : "s")) +
        '\n';
    std::string systems;
    for (const std::string &system : answer.systems) {
        systems += (systems.empty() ? "from " : ", ") + printable(system);
    }
    text += systems.empty() ? "" : wrapped(systems, 2);
    text += lines_text(answer);
    if (answer.question.compounds.size() > 1) {
        text += '\n' + best_text(answer, style) + '\n' + resolution_map_text(answer) + '\n' +
                crossings_text(answer, style);
    }
    text += answer.choice.wanted ? '\n' + wanted_text(answer, style) : "";
    text += answer.question.gradient ? '\n' + gradient_text(answer, style) : "";
    text += '\n' + wrapped(elution_principle(mechanism_of(answer.question.phase)), 0);
    for (const std::string &warning : answer.choice.warnings) {
        text += wrapped("! " + printable(warning), 0);
    }
    for (const std::string &note : answer.notes) {
        text += wrapped(printable(note), 0);
    }
    return text + wrapped(kLiquidCaution, 0) + wrapped(kRetentionIsNoProof, 0);
}

} // namespace cospot

#include "resolve/warnings.h"

#include <fmt/format.h>

#include <cmath>
#include <string>

namespace cospot::resolve {

namespace {

constexpr double kClearLogP = 1.5;
constexpr double kClearRetention = 1.1;
constexpr double kShortSpan = 0.05;

std::string line_warning(const MeasuredCompound &compound, const RetentionLine &line) {
    std::string text;
    if (line.law.slope <= 0.0) {
        text += fmt::format("{} is held longer with more modifier (S = {:.2f}), which the law does "
                            "not expect: check the labels, and which solvent the fraction counts. ",
                            compound.name, line.law.slope);
    }
    if (line.is_bent) {
        text += fmt::format("log k of {} bends over the fractions (up to {:.0f} % off the line): "
                            "trust it near its readings only, or leave out the farthest ones. ",
                            compound.name, 100.0 * std::abs(*line.worst_factor - 1.0));
    }
    if (line.high - line.low < kShortSpan) {
        text += fmt::format("The fractions of {} lie only {:.3g} apart, so that small errors of k "
                            "turn its line. ",
                            compound.name, line.high - line.low);
    }
    return text;
}

/// Pairs whose order of elution contradicts log P.
void check_order(const Question &question, const Choice &choice,
                 std::vector<std::string> &warnings) {
    if (question.phase == quantities::LiquidPhase::unknown) {
        return;
    }
    const bool is_reversed = question.phase == quantities::LiquidPhase::reversed;
    const double middle = (choice.measured.low + choice.measured.high) / 2.0;
    const auto k_of = [&](std::size_t i) {
        return quantities::retention_factor_at(choice.lines[i].law, middle);
    };
    for (std::size_t a = 0; a < choice.lines.size(); ++a) {
        for (std::size_t b = 0; b < choice.lines.size(); ++b) {
            const MeasuredCompound &polar = question.compounds[a];
            const MeasuredCompound &other = question.compounds[b];
            if (!polar.log_p || !other.log_p || *other.log_p - *polar.log_p < kClearLogP) {
                continue;
            }
            const double ratio = is_reversed ? k_of(a) / k_of(b) : k_of(b) / k_of(a);
            if (ratio > kClearRetention) {
                warnings.push_back(fmt::format(
                    "{} (log P {:.1f}) leaves {} {} (log P {:.1f}), against what their structures "
                    "say: a wrong label, or one of them is charged at this pH.",
                    polar.name, *polar.log_p, is_reversed ? "after" : "before", other.name,
                    *other.log_p));
            }
        }
    }
}

} // namespace

std::vector<std::string> warnings_of(const Question &question, const Choice &choice) {
    std::vector<std::string> warnings;
    for (std::size_t i = 0; i < choice.lines.size(); ++i) {
        std::string text = line_warning(question.compounds[i], choice.lines[i]);
        if (!text.empty()) {
            text.pop_back();
            warnings.push_back(std::move(text));
        }
    }
    check_order(question, choice, warnings);
    if (question.phase == quantities::LiquidPhase::normal) {
        warnings.emplace_back("On a normal phase log k follows the logarithm of the fraction "
                              "rather than the fraction: the line holds over a short range only.");
    }
    return warnings;
}

} // namespace cospot::resolve

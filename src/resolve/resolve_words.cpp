#include "resolve/resolve_words.h"

#include <algorithm>

namespace cospot {

namespace {

using namespace resolve;

std::string fraction_words(const Answer &answer, double fraction) {
    return fmt::format("fraction {:.3f} ({:.1f} % {})", fraction, 100.0 * fraction,
                       answer.modifier);
}

std::string last_k(const CurvePoint &point) {
    return k_text(*std::max_element(point.k.begin(), point.k.end()));
}

std::string window_words(const Answer &answer, const CurvePoint &best) {
    const RetentionWindow &window = answer.question.window;
    std::string names;
    for (std::size_t i = 0; i < best.k.size(); ++i) {
        if (best.k[i] < window.from || best.k[i] > window.to) {
            names += fmt::format("{}{} {}", names.empty() ? "" : ", ",
                                 answer.question.compounds[i].name, k_text(best.k[i]));
        }
    }
    const bool is_resolved = best.resolution >= answer.question.resolution;
    return fmt::format("No fraction keeps every k from {:g} to {:g}; the best one {}. Outside: {}. "
                       "A gradient, another column or another solvent may help.",
                       window.from, window.to,
                       is_resolved ? "comes closest with the resolution wanted" : "resolves best",
                       names);
}

} // namespace

std::string pair_words(const Answer &answer, const Pair &pair) {
    const auto &compounds = answer.question.compounds;
    const auto names = std::minmax(compounds[pair.first].name, compounds[pair.second].name);
    return names.first + " / " + names.second;
}

std::string run_words(const Answer &answer, const CurvePoint &point) {
    return fmt::format(
        "{}{}: resolution {:.2f} of {}", fraction_words(answer, point.fraction),
        answer.choice.measured.holds(point.fraction) ? "" : ", outside the measured fractions",
        point.resolution, pair_words(answer, *point.critical));
}

std::vector<std::string> shortfalls(const Answer &answer) {
    std::vector<std::string> sentences;
    if (answer.question.compounds.size() < 2) {
        return sentences;
    }
    const CurvePoint &best = answer.choice.curve[answer.choice.best];
    if (best.outside_window > 0) {
        sentences.push_back(window_words(answer, best));
    }
    if (best.resolution < answer.question.resolution) {
        sentences.push_back(
            fmt::format("The resolution is less than the {:g} wanted: the pair needs a column with "
                        "more plates, another solvent or another phase.",
                        answer.question.resolution));
    }
    return sentences;
}

std::vector<std::string> remarks_on_best(const Answer &answer) {
    if (answer.question.compounds.size() < 2) {
        return {};
    }
    const Choice &choice = answer.choice;
    std::vector<std::string> sentences{
        fmt::format("With the fraction off by up to {:g} the resolution is {:.2f} at worst.",
                    kMixingError, choice.off_best)};
    if (choice.fastest && *choice.fastest != choice.best) {
        const CurvePoint &fastest = choice.curve[*choice.fastest];
        sentences.push_back(fmt::format("Shortest run with resolution {:g}: {}, last k {} "
                                        "instead of {}.",
                                        answer.question.resolution, run_words(answer, fastest),
                                        last_k(fastest), last_k(choice.curve[choice.best])));
    }
    if (choice.unlimited) {
        const RetentionWindow &window = answer.question.window;
        sentences.push_back(fmt::format("If k may leave {:g} to {:g}: {}.", window.from, window.to,
                                        run_words(answer, choice.curve[*choice.unlimited])));
    }
    return sentences;
}

std::string wanted_words(const Answer &answer) {
    const FoundFraction &found = answer.choice.wanted.value();
    const RetentionLine &line = answer.choice.lines[found.compound];
    const std::string measured = fmt::format("the measured {:.3f} to {:.3f}", line.low, line.high);
    std::string text =
        fmt::format("k {:g} of {}: ", found.k, answer.question.compounds[found.compound].name);
    if (!found.fraction) {
        return text + "not within reach of " + measured +
               "; measure nearer to it, or --extrapolate.";
    }
    text += fraction_words(answer, *found.fraction);
    text += found.interval ? fmt::format(", 9 of 10 between {:.3f} and {:.3f}", found.interval->low,
                                         found.interval->high)
                           : ", spread not known";
    return text + (found.is_outside_measured ? "; outside " + measured : "") + ".";
}

std::string gradient_words(const Answer &answer) {
    const quantities::LinearGradient &gradient = answer.question.gradient.value();
    return fmt::format("Fraction {:g} to {:g} in {:g} min, dwell time {:g} min, hold-up time {:g} "
                       "min.",
                       gradient.from_fraction, gradient.to_fraction, gradient.duration_min,
                       gradient.dwell_min, gradient.hold_up_min);
}

std::string_view stage_words(const GradientAnswer &one) {
    if (!one.retention) {
        return "";
    }
    switch (one.retention->stage) {
    case quantities::GradientStage::before:
        return "before the gradient";
    case quantities::GradientStage::during:
        return "in the gradient";
    case quantities::GradientStage::behind:
        break;
    }
    return "after its end";
}

std::vector<std::string> basis_words(const Answer &answer) {
    const Choice &choice = answer.choice;
    std::vector<std::string> sentences;
    if (!choice.scatter) {
        sentences.emplace_back("Two readings a compound give a line but no scatter: measure a "
                               "third fraction to learn how well the lines fit.");
    }
    sentences.push_back(
        answer.question.extrapolate
            ? fmt::format(
                  "All compounds were measured from {:.3f} to {:.3f}. Answers outside (up to 0 "
                  "and 1, --extrapolate) are guesses.",
                  choice.measured.low, choice.measured.high)
            : fmt::format(
                  "All compounds were measured from {:.3f} to {:.3f}. The answers reach from "
                  "{:.3f} to {:.3f}: beyond either end by a tenth of the measured span, at "
                  "most by 0.05.",
                  choice.measured.low, choice.measured.high, choice.range.low, choice.range.high));
    return sentences;
}

} // namespace cospot

#include "resolve/choice.h"

#include "resolve/warnings.h"
#include "shared/error.h"
#include "shared/text.h"

#include <algorithm>
#include <cmath>

namespace cospot::resolve {

namespace {

FractionRange common_range(const std::vector<RetentionLine> &lines,
                           FractionRange (*of_line)(const FractionRange &)) {
    FractionRange common;
    for (const RetentionLine &line : lines) {
        const FractionRange range = of_line({line.low, line.high});
        common = {std::max(common.low, range.low), std::min(common.high, range.high)};
    }
    return common;
}

FractionRange as_it_is(const FractionRange &range) {
    return range;
}

bool is_better(const CurvePoint &a, const CurvePoint &b, double enough) {
    if ((a.outside_window == 0) != (b.outside_window == 0)) {
        return a.outside_window == 0;
    }
    if (a.outside_window == 0 || (a.resolution < enough && b.resolution < enough)) {
        return a.resolution > b.resolution;
    }
    if ((a.resolution >= enough) != (b.resolution >= enough)) {
        return a.resolution >= enough;
    }
    return a.window_excess < b.window_excess;
}

void find_best(Choice &choice, const Question &question) {
    const auto &curve = choice.curve;
    const auto last_k = [&](std::size_t i) {
        return *std::max_element(curve[i].k.begin(), curve[i].k.end());
    };
    std::size_t unlimited = 0;
    for (std::size_t i = 0; i < curve.size(); ++i) {
        if (is_better(curve[i], curve[choice.best], question.resolution)) {
            choice.best = i;
        }
        unlimited = curve[i].resolution > curve[unlimited].resolution ? i : unlimited;
        const bool is_enough =
            curve[i].outside_window == 0 && curve[i].resolution >= question.resolution;
        if (is_enough && (!choice.fastest || last_k(i) < last_k(*choice.fastest))) {
            choice.fastest = i;
        }
    }
    choice.off_best = curve[choice.best].resolution;
    for (const CurvePoint &point : curve) {
        if (std::abs(point.fraction - curve[choice.best].fraction) <= kMixingError) {
            choice.off_best = std::min(choice.off_best, point.resolution);
        }
    }
    constexpr double worth_saying = 0.1; // of resolution
    if (curve[unlimited].resolution > curve[choice.best].resolution + worth_saying) {
        choice.unlimited = unlimited;
    }
}

FractionRange answered_range(const RetentionLine &line, bool extrapolate) {
    return extrapolate ? FractionRange{} : with_margin({line.low, line.high});
}

/// The interval of fractions by the scatter of the compound's own line, to first order.
std::optional<FractionRange> interval_of(const Choice &choice, const RetentionLine &line,
                                         double fraction) {
    if (!choice.scatter) {
        return std::nullopt;
    }
    const double half =
        forecast(line, *choice.scatter, fraction).half_width() / std::abs(line.law.slope);
    return FractionRange{std::max(fraction - half, 0.0), std::min(fraction + half, 1.0)};
}

FoundFraction find_fraction(const Choice &choice, const Question &question) {
    const WantedRetention &wanted = *question.wanted;
    const auto &compounds = question.compounds;
    const auto found = std::find_if(compounds.begin(), compounds.end(), [&](const auto &compound) {
        return equal_ignoring_case(compound.name, wanted.compound);
    });
    if (found == compounds.end()) {
        throw InputError({"command line, --compound", 0, ""}, in_quotes(wanted.compound),
                         "one of the compounds that were read");
    }
    FoundFraction result;
    result.compound = static_cast<std::size_t>(found - compounds.begin());
    result.k = wanted.k;
    const RetentionLine &line = choice.lines[result.compound];
    if (line.law.slope == 0.0) {
        return result;
    }
    const double fraction = quantities::fraction_for(line.law, wanted.k);
    result.is_outside_measured = fraction < line.low || fraction > line.high;
    if (answered_range(line, question.extrapolate).holds(fraction)) {
        result.fraction = fraction;
        result.interval = interval_of(choice, line, fraction);
    }
    return result;
}

std::vector<GradientAnswer> run_gradient(const Choice &choice, const Question &question) {
    std::vector<GradientAnswer> answers;
    for (const RetentionLine &line : choice.lines) {
        const auto retention = quantities::gradient_retention(line.law, *question.gradient);
        GradientAnswer answer;
        answer.fraction = retention.fraction;
        answer.is_outside_measured = answer.fraction < line.low || answer.fraction > line.high;
        if (answered_range(line, question.extrapolate).holds(answer.fraction)) {
            answer.retention = retention;
        }
        answers.push_back(answer);
    }
    return answers;
}

} // namespace

FractionRange with_margin(const FractionRange &measured) {
    constexpr double share = 0.1;
    constexpr double most = 0.05;
    const double margin = std::min(share * (measured.high - measured.low), most);
    return {std::max(measured.low - margin, 0.0), std::min(measured.high + margin, 1.0)};
}

Choice choose(const Question &question) {
    Choice choice;
    for (const MeasuredCompound &compound : question.compounds) {
        choice.lines.push_back(fit_line(compound.points));
    }
    choice.scatter = pooled_scatter(choice.lines);
    choice.measured = common_range(choice.lines, as_it_is);
    choice.range = question.extrapolate ? FractionRange{} : common_range(choice.lines, with_margin);
    if (choice.measured.low > choice.measured.high) {
        throw InputError({}, "compounds that were measured at fractions far apart",
                         "fractions of all compounds that overlap");
    }
    choice.curve =
        resolution_curve(choice.lines, choice.range, question.plate_number, question.window);
    find_best(choice, question);
    choice.crossings = crossings_of(choice.lines, choice.range);
    if (question.wanted) {
        choice.wanted = find_fraction(choice, question);
    }
    if (question.gradient) {
        choice.gradient = run_gradient(choice, question);
    }
    choice.warnings = warnings_of(question, choice);
    return choice;
}

bool is_answered(const Question &question, const Choice &choice) {
    const bool is_resolved = question.compounds.size() < 2 || choice.fastest.has_value();
    const bool is_found = !choice.wanted || choice.wanted->fraction.has_value();
    return is_resolved && is_found &&
           std::all_of(choice.gradient.begin(), choice.gradient.end(),
                       [](const GradientAnswer &answer) { return answer.retention.has_value(); });
}

} // namespace cospot::resolve

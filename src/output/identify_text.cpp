#include "output/identify_text.h"

#include "document/probability_text.h"
#include "evidence/cospots.h"
#include "output/basis_text.h"
#include "output/beside_text.h"
#include "shared/text.h"
#include "shared/value_with_spread.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

constexpr std::size_t kIdentifyNameWidth = 33;
constexpr std::size_t kExpectedWidth = 15; ///< more where a value needs it

/// Candidates are listed until they and `unlisted` hold this share, and while they are likelier
/// than the least one worth a line.
constexpr double kWorthListing = 0.01;

std::string observation_text(const FeatureObservation &observation) {
    std::string text =
        fmt::format("{} {}", to_text(observation.quantity),
                    with_spread(observation.quantity, observation.value, observation.uncertainty));
    return text + " on " + printable(observation.system);
}

std::string further_text(const FurtherEvidence &further) {
    std::string text;
    const auto add = [&](const std::string &part) { text += (text.empty() ? "" : ", ") + part; };
    if (further.uv254) {
        add(*further.uv254 ? "dark at 254 nm" : "not dark at 254 nm");
    }
    for (const StainTest &test : further.stains) {
        add((test.stained ? "stained by " : "not stained by ") + test.stain);
    }
    if (further.molar_mass) {
        add(fmt::format("molar mass {:.10g} ± {:g} g/mol", *further.molar_mass,
                        further.molar_mass_uncertainty.value_or(kMolarMassUncertainty)));
    }
    if (!further.formula.empty()) {
        add("formula " + further.formula);
    }
    return text.empty() ? text : wrapped("also: " + text, 4);
}

/// What further evidence did to the odds of a candidate against `unlisted`; nothing where it did
/// next to nothing.
std::string further_effect(double log_ratio) {
    constexpr double smallest = 0.1;
    if (std::abs(log_ratio) < smallest) {
        return {};
    }
    const double factor = std::exp(std::abs(log_ratio));
    return wrapped(fmt::format("(further evidence: {} {:.{}f}-fold relative to unlisted)",
                               log_ratio > 0 ? "raised" : "lowered", factor, factor < 10 ? 1 : 0),
                   11);
}

std::string heading(const Feature &feature, const Style &style) {
    const std::string name =
        printable(feature.sample.empty() ? feature.name : feature.sample + " / " + feature.name);
    std::string text = style.strong(name);
    if (feature.retention_time_min) {
        text += fmt::format("   tR {:.3f} min", *feature.retention_time_min);
    }
    if (feature.observations.size() == 1) {
        text += "   " + observation_text(feature.observations.front());
    }
    text += '\n';
    if (feature.observations.size() > 1) {
        for (const FeatureObservation &observation : feature.observations) {
            text += "    " + observation_text(observation) + '\n';
        }
    }
    return text + further_text(feature.further);
}

std::string comparison_text(const matcher::Comparison &comparison, Quantity quantity) {
    const std::string expected = with_spread(quantity, comparison.expected, comparison.spread);
    const std::string distance =
        shown_beside(quantity, std::abs(comparison.deviation), comparison.spread);
    const bool is_negative =
        comparison.deviation < 0 && distance.find_first_of("123456789") != std::string::npos;
    const std::string deviation = (is_negative ? "-" : "+") + distance;
    return fmt::format("{}  {}  {:>7}", padded(to_text(comparison.basis), 11),
                       padded(expected, std::max(kExpectedWidth, display_width(expected))),
                       deviation);
}

/// How far the feature lies from the standards of a candidate.
std::string standards_of(const ProposedCompound &candidate, const Identification &result) {
    std::string text;
    for (const BesideStandard &standard : result.standards) {
        if (standard.compound == candidate.compound) {
            text += wrapped(distance_text(standard), 11);
        }
    }
    return text;
}

/// The nearest standard that the feature differs from; reports tell all.
std::string differing(const Identification &result) {
    const auto nearest =
        std::find_if(result.standards.begin(), result.standards.end(),
                     [](const auto &one) { return one.verdict == SameOrNot::differs; });
    return nearest == result.standards.end() ? "" : wrapped(beside_words(*nearest), 9);
}

std::string group_text(const matcher::Group &group, const Identification &result,
                       const Feature &feature) {
    const ProposedCompound &leader = result.candidates[group.members.front()];
    std::string text = fmt::format("  {:>5}  ", probability_text(group.probability));
    if (feature.observations.size() == 1) {
        text += padded(leader.name, kIdentifyNameWidth) + ' ' +
                comparison_text(leader.comparisons.front(), feature.observations.front().quantity) +
                '\n';
    } else {
        text += printable(leader.name) + '\n';
        for (const matcher::Comparison &comparison : leader.comparisons) {
            const FeatureObservation &observation = feature.observations[comparison.observation];
            text += "           " + padded(observation.system, kIdentifyNameWidth - 2) + ' ' +
                    comparison_text(comparison, observation.quantity) + '\n';
        }
        if (leader.comparisons.size() < feature.observations.size()) {
            text += "           (not measured on the other systems)\n";
        }
    }
    if (leader.comparisons.front().beside) {
        text += standards_of(leader, result);
    }
    text += further_effect(leader.further);
    std::string names;
    for (std::size_t i = 1; i < group.members.size(); ++i) {
        names += (i > 1 ? ", " : "") + printable(result.candidates[group.members[i]].name);
    }
    if (group.not_listed > 0) {
        names += fmt::format("{}{} more", names.empty() ? "" : " or ", group.not_listed);
    }
    if (!names.empty()) {
        text += wrapped("or " + names + " (cannot be told apart here)", 9);
    }
    return text;
}

} // namespace

bool is_worth_listing(const matcher::Group &group, const Identification &result) {
    return group.probability >= kWorthListing ||
           (&group == &result.groups.front() && result.unlisted < 0.99);
}

std::string identify_heading() {
    return fmt::format("  {:>5}  {} {}  {}  {:>7}\n", "prob.",
                       padded("candidate", kIdentifyNameWidth), padded("basis", 11),
                       padded("expected", kExpectedWidth), "off by");
}

std::string identify_text(const Feature &feature, const Identification &result,
                          const Style &style) {
    std::string text = heading(feature, style);
    const bool is_compared = !result.candidates.empty();
    if (!is_compared && !feature.observations.empty()) {
        text += "         no candidates: no compound is known there\n";
    }
    // `unlisted` stands where its probability puts it.
    bool unlisted_is_due = is_compared;
    const auto unlisted_line = [&] {
        unlisted_is_due = false;
        return fmt::format("  {:>5}  unlisted: none of the library's compounds\n",
                           probability_text(result.unlisted));
    };
    double rest = 1.0 - result.unlisted;
    std::size_t rest_count = result.candidates.size() + result.other_count;
    for (const matcher::Group &group : result.groups) {
        if (unlisted_is_due && result.unlisted > group.probability) {
            text += unlisted_line();
        }
        if (is_worth_listing(group, result)) {
            text += group_text(group, result, feature);
            rest -= group.probability;
            rest_count -= group.members.size() + group.not_listed;
        }
    }
    if (unlisted_is_due) {
        text += unlisted_line();
    }
    if (result.not_measured >= kWorthListing / 2 && is_compared) {
        text += style.faint(
            fmt::format("  {:>5}  {} compound{} of the library, not measured here\n",
                        probability_text(result.not_measured), result.not_measured_count,
                        result.not_measured_count == 1 ? "" : "s"));
        rest -= result.not_measured;
    }
    if (rest >= kWorthListing / 2 && rest_count > 0 && is_compared) {
        text +=
            style.faint(fmt::format("  {:>5}  {} others\n", probability_text(rest), rest_count));
    }
    text += differing(result);
    for (const CoSpot &cospot : result.cospots) {
        text += wrapped(printable(words_of(cospot)), 9);
    }
    for (const std::string &warning : result.warnings) {
        text += wrapped("! " + printable(warning), 9);
    }
    return text;
}

} // namespace cospot

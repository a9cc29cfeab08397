#include "identify/feature_section.h"

#include "document/cells.h"
#include "drawing/probability_bars.h"
#include "evidence/cospots.h"
#include "identification/alternatives.h"
#include "identification/beside_words.h"
#include "identify/feature_words.h"
#include "shared/text.h"
#include "shared/value_with_spread.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

/// A share of the probability that is worth a line.
constexpr double kWorthALine = 0.005;

/// "+0.01", with a sign only where digits that count are left.
std::string deviation_text(const matcher::Comparison &comparison, Quantity quantity) {
    const std::string size =
        shown_beside(quantity, std::abs(comparison.deviation), comparison.spread);
    if (size.find_first_of("123456789") == std::string::npos) {
        return size;
    }
    return (comparison.deviation < 0 ? "−" : "+") + size;
}

/// What further evidence did to the odds of a candidate against `unlisted`; nothing where it did
/// next to nothing.
std::string further_effect(double log_ratio) {
    constexpr double smallest = 0.1;
    if (std::abs(log_ratio) < smallest) {
        return {};
    }
    const double factor = std::exp(std::abs(log_ratio));
    return fmt::format("further evidence {} its odds against unlisted {:.{}f}-fold",
                       log_ratio > 0 ? "raised" : "lowered", factor, factor < 10 ? 1 : 0);
}

/// What stands below a candidate: its standards, further evidence, and what it cannot be told from.
std::vector<std::string> candidate_notes(const matcher::Group &group,
                                         const AnsweredFeature &answered) {
    const ProposedCompound &leader = answered.found.candidates[group.members.front()];
    std::vector<std::string> notes;
    if (leader.comparisons.front().beside) {
        for (const BesideStandard &standard : answered.found.standards) {
            if (standard.compound == leader.compound) {
                notes.push_back(distance_text(standard));
            }
        }
    }
    if (std::string effect = further_effect(leader.further); !effect.empty()) {
        notes.push_back(std::move(effect));
    }
    if (leader.comparisons.size() < answered.feature->observations.size()) {
        notes.emplace_back("not measured on the other systems");
    }
    std::vector<std::string> others;
    for (std::size_t i = 1; i < group.members.size(); ++i) {
        others.push_back(answered.found.candidates[group.members[i]].name);
    }
    if (!others.empty() || group.not_listed > 0) {
        std::string names = fmt::to_string(fmt::join(others, ", "));
        if (group.not_listed > 0) {
            names += fmt::format("{}{} more", names.empty() ? "" : " or ", group.not_listed);
        }
        notes.push_back("or " + names + " (cannot be told apart here)");
    }
    return notes;
}

/// A candidate with how it compares on each system, one row a system.
void add_candidate(Table &table, const matcher::Group &group, const AnsweredFeature &answered) {
    const ProposedCompound &leader = answered.found.candidates[group.members.front()];
    const auto &observations = answered.feature->observations;
    for (std::size_t i = 0; i < leader.comparisons.size(); ++i) {
        const matcher::Comparison &comparison = leader.comparisons[i];
        const FeatureObservation &observation = observations[comparison.observation];
        table.rows.push_back(
            {{i == 0 ? probability_cell(group.probability) : Cell{},
              {i == 0 ? leader.name : ""},
              {observations.size() > 1 ? observation.system : ""},
              {name_of_basis(comparison.basis)},
              {with_spread(observation.quantity, comparison.expected, comparison.spread)},
              {deviation_text(comparison, observation.quantity), comparison.deviation}}});
    }
    table.rows.back().notes = candidate_notes(group, answered);
}

void add_share(Table &table, double probability, const std::string &what, Emphasis emphasis) {
    Cell share = probability_cell(probability);
    share.emphasis = emphasis;
    table.rows.push_back({{share, {what, {}, emphasis}, {}, {}, {}, {}}});
}

Table candidate_table(const AnsweredFeature &answered) {
    const Identification &result = answered.found;
    Table table{.label = "Candidates for " + feature_name(*answered.feature),
                .columns = {{"Prob.", true},
                            {"Candidate"},
                            {"System"},
                            {"Basis"},
                            {"Expected", true},
                            {"Off by", true}},
                .heading_column = 1,
                .kind = "candidates"};
    double rest = 1.0;
    std::size_t rest_count = result.candidates.size() + result.other_count;
    for (const Alternative &alternative : alternatives_of(result)) {
        if (alternative.group == nullptr) {
            add_share(table, result.unlisted, "unlisted: none of those compared", Emphasis::none);
        } else if (is_worth_listing(*alternative.group, result)) {
            add_candidate(table, *alternative.group, answered);
            rest_count -= alternative.group->members.size() + alternative.group->not_listed;
        } else {
            continue;
        }
        rest -= alternative.probability;
    }
    if (result.not_measured >= kWorthALine) {
        add_share(table, result.not_measured,
                  counted(result.not_measured_count, "compound") +
                      " of the library, not measured here",
                  Emphasis::faint);
        rest -= result.not_measured;
    }
    if (rest >= kWorthALine && rest_count > 0) {
        add_share(table, rest, counted(rest_count, "other candidate"), Emphasis::faint);
    }
    return table;
}

Figure bar_of(const AnsweredFeature &answered) {
    std::vector<ProbabilityShare> shares;
    double other = 1.0 - answered.found.unlisted;
    for (const Alternative &alternative : alternatives_of(answered.found)) {
        if (alternative.group != nullptr && is_worth_listing(*alternative.group, answered.found)) {
            shares.push_back({name_of(alternative, answered.found), alternative.probability});
            other -= alternative.probability;
        }
    }
    return {.svg = probability_bar(shares, std::max(0.0, other), answered.found.unlisted,
                                   "What " + feature_name(*answered.feature) + " may be")};
}

/// The nearest standard that the feature differs from, where it is worth a look.
std::vector<BesideStandard>::const_iterator nearest_standard(const Identification &result) {
    return std::find_if(result.standards.begin(), result.standards.end(), [](const auto &one) {
        return one.verdict == SameOrNot::differs && one.is_near;
    });
}

/// How the feature lies beside that standard, and what its co-spots say.
List beside_standards(const Identification &result) {
    List list{"", {}};
    const auto nearest = nearest_standard(result);
    if (nearest != result.standards.end()) {
        list.items.push_back(beside_words(*nearest));
    }
    for (const CoSpot &cospot : result.cospots) {
        list.items.push_back(words_of(cospot));
    }
    return list;
}

/// What is told of a feature when one asks why.
Details details_of(const AnsweredFeature &answered) {
    Details details;
    const Identification &result = answered.found;
    if (!result.set.empty()) {
        details.blocks.emplace_back(
            Paragraph{fmt::format("Candidate set, meant to hold the compound 95 times in 100: {}.",
                                  fmt::join(result.set, ", "))});
    }
    List standards{"Beside the other standards of the run", {}};
    const auto nearest = nearest_standard(result);
    for (auto one = result.standards.begin(); one != result.standards.end(); ++one) {
        if (one != nearest) {
            standards.items.push_back(beside_words(*one));
        }
    }
    details.blocks.emplace_back(std::move(standards));
    for (Block &block : explanation_blocks(answered.words, result)) {
        details.blocks.push_back(std::move(block));
    }
    return details;
}

} // namespace

std::string feature_anchor(std::size_t position) {
    return fmt::format("feature-{}", position);
}

Section brief_feature_section(const AnsweredFeature &answered, std::size_t position) {
    const Feature &feature = *answered.feature;
    Section section{fmt::format("{}. {}", position, feature_name(feature)),
                    feature_anchor(position),
                    {},
                    {Paragraph{readings_of(feature)}}};
    std::vector<Block> &blocks = section.blocks;
    if (std::string pair = pair_words(feature); !pair.empty()) {
        blocks.emplace_back(Paragraph{"On two columns: " + pair + "."});
    }
    if (std::string further = further_words(feature.further); !further.empty()) {
        blocks.emplace_back(Paragraph{"Also seen: " + further + "."});
    }
    if (!answered.found.candidates.empty()) {
        blocks.emplace_back(bar_of(answered));
        blocks.emplace_back(candidate_table(answered));
    } else if (!feature.observations.empty()) {
        blocks.emplace_back(Paragraph{"No candidates: no compound is known there."});
    }
    blocks.emplace_back(List{"", answered.found.warnings, List::Role::warnings});
    blocks.emplace_back(beside_standards(answered.found));
    return section;
}

Section feature_section(const AnsweredFeature &answered, std::size_t position) {
    Section section = brief_feature_section(answered, position);
    section.blocks.emplace_back(details_of(answered));
    return section;
}

} // namespace cospot

#include "identification/explanation_words.h"

#include "document/probability_text.h"
#include "identification/alternatives.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

constexpr std::size_t kExplainedGroups = 3;

/// Smaller factors are not worth a sentence.
constexpr double kFactorWorthSaying = 1.1;

bool is_worth_saying(double log_ratio) {
    return std::abs(log_ratio) >= std::log(kFactorWorthSaying);
}

/// A factor above 1 with two digits.
std::string factor_text(double factor) {
    if (factor >= 1e6) {
        return "more than a million";
    }
    if (factor < 99.5) {
        return fmt::format("{:.2g}", factor);
    }
    const double unit = std::pow(10.0, std::floor(std::log10(factor)) - 1);
    return fmt::format("{:.0f}", std::round(factor / unit) * unit);
}

/// How likely something is from a candidate, beside from an unlisted compound.
std::string beside_unlisted(double log_ratio, std::string_view unlisted) {
    if (!is_worth_saying(log_ratio)) {
        return fmt::format("about as likely as {}", unlisted);
    }
    return fmt::format("{} times {} {}", factor_text(std::exp(std::abs(log_ratio))),
                       log_ratio > 0 ? "as likely as" : "less likely than", unlisted);
}

std::string evidence_beside_unlisted(double log_ratio) {
    return beside_unlisted(log_ratio, "from an unlisted compound");
}

std::string prior_words(const CandidateTerms &terms, std::size_t compounds) {
    std::string words = fmt::format("before measuring: {}, as one of {} compound{}",
                                    beside_unlisted(terms.log_prior, "unlisted"), compounds,
                                    compounds == 1 ? "" : "s");
    if (terms.run_weight != 1.0) {
        words +=
            fmt::format(", {} times as likely as the average one, since it came up in {} of "
                        "the library's runs",
                        factor_text(terms.run_weight), terms.run_weight > 1.0 ? "more" : "fewer");
    }
    return terms.weight == 1.0 ? words
                               : words + fmt::format(" and with the weight {:g}", terms.weight);
}

/// Where the expected value is from, and how that widens its spread.
std::string basis_words(const ReadingTerm &reading) {
    const std::size_t runs = reading.comparison.runs;
    const std::string wider = reading.widening >= kFactorWorthSaying
                                  ? fmt::format(", with {} times the spread of a measured one",
                                                factor_text(reading.widening))
                                  : "";
    switch (reading.comparison.basis) {
    case matcher::Basis::same_run:
        return "from its standard in the same run";
    case matcher::Basis::measured:
        return "measured in " + counted(runs, "independent run");
    case matcher::Basis::transferred:
        return "transferred from its values on other systems" + wider;
    case matcher::Basis::predicted:
        return "predicted from its structure" + wider;
    }
    return "";
}

/// Where the reading lies beside what is expected.
std::string position_words(const ReadingTerm &reading, Quantity quantity) {
    constexpr double next_to_nothing = 0.05;
    const matcher::Comparison &comparison = reading.comparison;
    const double spreads = comparison.deviation / comparison.spread;
    std::string words =
        std::abs(spreads) < next_to_nothing
            ? "at"
            : fmt::format("{:.{}f} spreads {}", std::abs(spreads), std::abs(spreads) < 9.95 ? 1 : 0,
                          spreads < 0 ? "below" : "above");
    words += fmt::format(" the expected {}", shown(quantity, comparison.expected));
    if (comparison.in_library &&
        shown(quantity, *comparison.in_library) != shown(quantity, comparison.expected)) {
        words += fmt::format(" ({} in the library{})", shown(quantity, *comparison.in_library),
                             comparison.beside ? "" : ", moved with this run");
    }
    return words;
}

std::string reading_words(const ReadingTerm &reading, const FeatureObservation &observation) {
    const std::string what =
        fmt::format("{} {} on {}", to_text(observation.quantity),
                    shown(observation.quantity, observation.value), observation.system);
    const std::string likelihood = evidence_beside_unlisted(reading.log_ratio);
    if (reading.end != matcher::Censoring::none) {
        return fmt::format("{} stands at the {} and tells little ({} is expected): {}", what,
                           reading.end == matcher::Censoring::at_start ? "start" : "front",
                           shown(observation.quantity, reading.comparison.expected), likelihood);
    }
    return fmt::format("{} is {}, {}: {}", what, position_words(reading, observation.quantity),
                       basis_words(reading), likelihood);
}

bool has_reading(const CandidateTerms &terms, std::size_t observation) {
    return std::any_of(terms.readings.begin(), terms.readings.end(), [&](const auto &reading) {
        return reading.comparison.observation == observation;
    });
}

std::string competition_words(const CandidateTerms &terms, std::span<const Feature *const> run) {
    const std::string change = fmt::format(
        "{} instead of {} by itself", probability_text(terms.joint), probability_text(terms.alone));
    if (terms.joint > terms.alone) {
        return "compounds that compete with it explain other features of the run: " + change;
    }
    if (!terms.rival) {
        return "a compound explains only one feature of the run: " + change;
    }
    return fmt::format("a compound explains only one feature and {} may be it too ({}): {}",
                       run[terms.rival->feature]->name, probability_text(terms.rival->probability),
                       change);
}

std::vector<std::string> because(const CandidateTerms &terms, const Feature &feature,
                                 std::size_t compounds, std::span<const Feature *const> run) {
    std::vector<std::string> sentences;
    for (const ReadingTerm &reading : terms.readings) {
        sentences.push_back(
            reading_words(reading, feature.observations[reading.comparison.observation]));
    }
    for (std::size_t i = 0; i < feature.observations.size(); ++i) {
        if (!has_reading(terms, i)) {
            sentences.push_back(fmt::format("nothing is known of it on {}: that reading counts "
                                            "neither for nor against it",
                                            feature.observations[i].system));
        }
    }
    if (is_worth_saying(terms.log_together)) {
        sentences.push_back(fmt::format("the readings are not independent of each other: together "
                                        "they count {} times {} than one by one",
                                        factor_text(std::exp(std::abs(terms.log_together))),
                                        terms.log_together > 0 ? "more" : "less"));
    }
    if (!is_empty(feature.further)) {
        sentences.push_back("what was seen beside retention is " +
                            evidence_beside_unlisted(terms.log_further));
    }
    sentences.push_back(prior_words(terms, compounds));
    if (probability_text(terms.joint) != probability_text(terms.alone)) {
        sentences.push_back(competition_words(terms, run));
    }
    if (probability_text(terms.stated) != probability_text(terms.joint)) {
        sentences.push_back(fmt::format("corrected by the proof of this library: {} instead of {}",
                                        probability_text(terms.stated),
                                        probability_text(terms.joint)));
    }
    return sentences;
}

std::string spreads_text(double spreads) {
    return fmt::format("{:.{}f} spreads", spreads, spreads < 9.95 ? 1 : 0);
}

std::string next_measurement(const TieBreaker &breaker, const Identification &identification) {
    const bool is_told_apart = breaker.best && breaker.best->spreads >= kToldApart;
    std::string words = fmt::format("{} or {}: ", identification.candidates[breaker.tie.first].name,
                                    identification.candidates[breaker.tie.second].name);
    if (!breaker.best) {
        words += "no system in the library tells them apart (no other one holds both)";
    } else if (!is_told_apart) {
        words += fmt::format("no system in the library tells them apart (at best {}, on {})",
                             spreads_text(breaker.best->spreads), breaker.best->system);
    } else {
        const Separation &best = *breaker.best;
        words += fmt::format("measure on {}, where they lie {} apart ({} {} and {})", best.system,
                             spreads_text(best.spreads), to_text(best.quantity),
                             shown(best.quantity, best.first), shown(best.quantity, best.second));
    }
    if (breaker.tie.stereoisomers) {
        words += is_told_apart
                     ? ", although achiral systems usually cannot tell stereoisomers apart"
                     : "; they are stereoisomers, which achiral systems usually cannot tell apart";
    }
    return words;
}

std::vector<matcher::Group> explained_groups(const Identification &identification) {
    std::vector<matcher::Group> explained;
    for (const matcher::Group &group : identification.groups) {
        if (explained.size() < kExplainedGroups && is_worth_listing(group, identification)) {
            explained.push_back(group);
        }
    }
    return explained;
}

std::string why_heading(const matcher::Group &group, const Identification &identification) {
    const ProposedCompound &leader = identification.candidates[group.members.front()];
    const std::string share = group.members.size() + group.not_listed > 1
                                  ? " of its group's " + probability_text(group.probability)
                                  : "";
    return fmt::format("Why {} has {}{}", leader.name, probability_text(leader.probability), share);
}

bool contains(const std::vector<std::string> &sentences, const std::string &sentence) {
    return std::find(sentences.begin(), sentences.end(), sentence) != sentences.end();
}

/// The sentences that several candidates have all alike: they are said once only.
std::vector<std::string> said_of_all(std::span<const matcher::Group> explained,
                                     const ExplanationWords &words) {
    std::vector<std::string> shared;
    if (explained.size() < 2) {
        return shared;
    }
    for (const std::string &sentence : words.because[explained.front().members.front()]) {
        if (std::all_of(explained.begin(), explained.end(), [&](const matcher::Group &group) {
                return contains(words.because[group.members.front()], sentence);
            })) {
            shared.push_back(sentence);
        }
    }
    return shared;
}

} // namespace

ExplanationWords explanation_words(const Explanation &explanation, const Feature &feature,
                                   const Identification &identification,
                                   std::span<const Feature *const> run) {
    const std::size_t compounds = identification.compounds;
    ExplanationWords words;
    for (const CandidateTerms &terms : explanation.candidates) {
        words.because.push_back(because(terms, feature, compounds, run));
    }
    for (const TieBreaker &breaker : explanation.ties) {
        words.next.push_back(next_measurement(breaker, identification));
    }
    return words;
}

std::vector<Block> explanation_blocks(const ExplanationWords &words,
                                      const Identification &identification) {
    std::vector<Block> blocks;
    if (words.because.empty()) {
        return blocks;
    }
    const std::vector<matcher::Group> explained = explained_groups(identification);
    const std::vector<std::string> shared = said_of_all(explained, words);
    for (const matcher::Group &group : explained) {
        List own{why_heading(group, identification), {}};
        for (const std::string &sentence : words.because[group.members.front()]) {
            if (!contains(shared, sentence)) {
                own.items.push_back(sentence);
            }
        }
        blocks.emplace_back(std::move(own));
    }
    blocks.emplace_back(List{"For each of them", shared});
    blocks.emplace_back(List{"What to measure next", words.next, List::Role::next});
    return blocks;
}

} // namespace cospot

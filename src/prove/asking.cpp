#include "prove/asking.h"

#include "evidence/related_systems.h"
#include "model/matcher/run_registration.h"
#include "model/matcher/sample.h"

#include <algorithm>
#include <set>
#include <span>
#include <utility>

namespace cospot {

namespace {

constexpr std::size_t kAbsent = 5; ///< every so manieth compound is left out wholly

/// A well-mixed number from another (the finaliser of SplitMix64: steele2014, from memory).
std::uint64_t mixed(std::uint64_t x) {
    x = (x ^ (x >> 30U)) * 0xbf58476d1ce4e5b9ULL;
    x = (x ^ (x >> 27U)) * 0x94d049bb133111ebULL;
    return x ^ (x >> 31U);
}

/// The ranking given that the compound is none of those held elsewhere only: no question is about
/// one of them.
matcher::Ranking without_held_elsewhere(matcher::Ranking ranking, double share) {
    const double rest = 1.0 - share * ranking.unlisted;
    if (share > 0.0 && rest > 0.0) {
        ranking.unlisted *= (1.0 - share) / rest;
        for (matcher::RankedCandidate &candidate : ranking.candidates) {
            candidate.probability /= rest;
        }
    }
    return ranking;
}

/// Where the expected values of a compound come from, as `note_bases` has it; nothing where none of
/// the observed systems knows it.
std::optional<matcher::Basis> basis_of(std::size_t compound,
                                       std::span<const matcher::Observation> observations,
                                       const LibraryEvidence &evidence) {
    const bool is_known =
        std::any_of(observations.begin(), observations.end(), [&](const auto &one) {
            return matcher::find_candidate(evidence.knowledge.systems[one.system], compound) !=
                   nullptr;
        });
    if (!is_known) {
        return std::nullopt;
    }
    matcher::Ranking alone{{{compound, 1.0}}, 0.0};
    matcher::note_bases(alone, observations, evidence.knowledge.systems);
    return alone.candidates.front().basis;
}

/// Adds the question unless the library cannot know the answer.
void add(Part part, const std::vector<Asked> &values,
         std::span<const matcher::Observation> observations, const matcher::SampleRanking &said,
         std::size_t feature, std::vector<JudgedQuestion> &questions) {
    std::set<std::size_t> systems;
    bool are_whole_days = true;
    for (const Asked &one : values) {
        systems.insert(one.system);
        are_whole_days = are_whole_days && one.question == library::ProofQuestion::day;
    }
    JudgedQuestion question;
    question.part = part.number;
    question.systems = std::min<std::size_t>(library::kMostProvedSystems, systems.size());
    question.question = is_little_measured(*part.evidence, systems)
                            ? library::ProofQuestion::new_system
                        : are_whole_days ? library::ProofQuestion::day
                                         : library::ProofQuestion::run;
    const library::CompoundId compound = values.front().value.compound;
    if (const auto index = index_of_compound(*part.evidence, compound)) {
        if (const auto basis = basis_of(*index, observations, *part.evidence)) {
            question.judged.truth = *index;
            question.judged.basis = *basis;
        }
    }
    if (question.judged.truth != matcher::kUnlisted || is_absent(compound, part.number)) {
        question.judged.ranking =
            without_held_elsewhere(said.features[feature], said.elsewhere.share);
        matcher::note_bases(question.judged.ranking, observations,
                            part.evidence->knowledge.systems);
        questions.push_back(std::move(question));
    }
}

} // namespace

std::size_t mixed_below(std::size_t count, std::int64_t id, std::uint64_t salt) {
    return static_cast<std::size_t>(
        mixed(static_cast<std::uint64_t>(id) * 0x9e3779b97f4a7c15ULL + salt) % count);
}

std::size_t shuffled(std::int64_t id, std::uint64_t salt) {
    constexpr std::size_t many = 1U << 30U;
    return mixed_below(many, id, salt);
}

bool are_too_many_to_compare(const std::vector<SystemValues> &values,
                             const std::vector<std::size_t> &systems) {
    std::int64_t held = 0;
    for (const std::size_t system : systems) {
        held += std::ssize(values[system].held);
    }
    return held > kMostRelatedValues;
}

bool is_absent(library::CompoundId compound, std::size_t part) {
    constexpr std::uint64_t of_compounds = 1;
    return mixed_below(kAbsent, library::as_number(compound), of_compounds) == part % kAbsent;
}

std::size_t candidates_near(Part part, const Asked &asked) {
    return part.evidence->nearby[asked.system].near(asked.value.value, 0.0).size();
}

bool is_answerable(Part part, const Asked &asked) {
    const auto index = index_of_compound(*part.evidence, asked.value.compound);
    return is_absent(asked.value.compound, part.number) ||
           (index && matcher::find_candidate(part.evidence->knowledge.systems[asked.system],
                                             *index) != nullptr);
}

void ask_run(Part part, const std::vector<Asked> &run, std::vector<JudgedQuestion> &questions) {
    std::vector<matcher::SampleFeature> features;
    features.reserve(run.size());
    for (const Asked &one : run) {
        features.push_back({{{one.system, one.value.value, 0.0}}, {}});
    }
    const matcher::Knowledge &knowledge = part.evidence->knowledge;
    matcher::register_run(features, knowledge, part.evidence->nearby, {});
    const matcher::SampleRanking said =
        matcher::rank_sample(features, knowledge, part.evidence->nearby, {});
    for (std::size_t i = 0; i < run.size(); ++i) {
        add(part, {run[i]}, features[i].observations, said, i, questions);
    }
}

void ask_panel(Part part, const std::vector<Asked> &values,
               std::vector<JudgedQuestion> &questions) {
    matcher::SampleFeature feature;
    for (const Asked &one : values) {
        feature.observations.push_back({one.system, one.value.value, 0.0, {}, {}, {}});
        matcher::settle(feature.observations.back(), part.evidence->knowledge.systems[one.system]);
    }
    const matcher::SampleRanking said = matcher::rank_sample(
        std::span(&feature, 1), part.evidence->knowledge, part.evidence->nearby, {});
    add(part, values, feature.observations, said, 0, questions);
}

} // namespace cospot

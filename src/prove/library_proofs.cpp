#include "prove/library_proofs.h"

#include "library/changes.h"
#include "library/proofs.h"
#include "library/systems.h"
#include "prove/hidden_systems.h"
#include "prove/judged_library.h"
#include "shared/parallel.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <utility>

namespace cospot {

namespace {

using library::ProofQuestion;

std::vector<Technique> techniques_of(library::Database &database) {
    const std::vector<library::System> systems = library::all_systems(database);
    std::vector<Technique> techniques;
    for (const Technique technique :
         {Technique::tlc, Technique::paper, Technique::column, Technique::hplc, Technique::gc}) {
        if (std::any_of(systems.begin(), systems.end(), [&](const library::System &system) {
                return system.technique == technique;
            })) {
            techniques.push_back(technique);
        }
    }
    return techniques;
}

bool are_of_several_systems(const std::vector<SystemValues> &values) {
    return std::any_of(values.begin(), values.end(), [&](const SystemValues &one) {
        return one.modelled.system.id != values.front().modelled.system.id;
    });
}

/// All questions to one technique: parts of the values, then systems that become new.
std::vector<JudgedQuestion> asked(const std::vector<SystemValues> &values, std::size_t rounds,
                                  const std::function<void()> &advance) {
    std::vector<JudgedQuestion> all;
    const auto take = [&](std::vector<JudgedQuestion> questions) {
        std::move(questions.begin(), questions.end(), std::back_inserter(all));
        advance();
    };
    for (std::size_t part = 0; part < kProofParts; ++part) {
        take(judge_part(values, part));
    }
    for (std::size_t round = 0; round < rounds; ++round) {
        take(judge_hidden_systems(values, round));
    }
    return all;
}

/// The questions by what was left out and on how many systems a feature was seen.
using QuestionGroups = std::map<std::pair<ProofQuestion, std::size_t>, std::vector<JudgedQuestion>>;

QuestionGroups grouped(std::vector<JudgedQuestion> questions) {
    QuestionGroups groups;
    for (JudgedQuestion &one : questions) {
        groups[{one.question, one.systems}].push_back(std::move(one));
    }
    return groups;
}

UntriedKind untried_kind(ProofQuestion question, std::size_t systems) {
    return question == ProofQuestion::new_system ? UntriedKind::new_system
           : systems > 1                         ? UntriedKind::several_systems
                                                 : UntriedKind::one_system;
}

/// The kinds of questions of which none had enough.
std::vector<UntriedQuestion> untried_of(Technique technique, const QuestionGroups &groups,
                                        const std::vector<SystemValues> &values) {
    std::map<UntriedKind, std::size_t> most{{UntriedKind::one_system, 0}};
    if (are_of_several_systems(values)) {
        most[UntriedKind::several_systems] = 0;
        most[UntriedKind::new_system] = 0;
    }
    for (const auto &[key, questions] : groups) {
        std::size_t &count = most[untried_kind(key.first, key.second)];
        count = std::max(count, questions.size());
    }
    std::vector<UntriedQuestion> untried;
    for (const auto &[kind, count] : most) {
        if (count < kFewestQuestions && !values.empty()) {
            untried.push_back({technique, kind, count});
        }
    }
    return untried;
}

/// The proofs of all kinds that have enough questions.
std::vector<ProvedQuestion> proved_of(Technique technique, QuestionGroups groups) {
    std::erase_if(groups, [](const auto &group) { return group.second.size() < kFewestQuestions; });
    std::vector<ProvedQuestion> proved;
    std::vector<std::vector<JudgedQuestion>> questions;
    for (auto &[key, own] : groups) {
        proved.push_back({technique, key.first, key.second, {}});
        questions.push_back(std::move(own));
    }
    for_each_in_parallel(
        proved.size(), [&](std::size_t i) { proved[i].result = prove(std::move(questions[i])); },
        1);
    return proved;
}

/// What is asked of one technique.
struct ToAsk {
    Technique technique;
    std::vector<SystemValues> values;
    std::size_t rounds = 0; ///< in which systems become new
};

} // namespace

LibraryProofs prove_library(library::Database &database,
                            const std::function<void(std::size_t)> &begin,
                            const std::function<void()> &advance) {
    LibraryProofs proofs;
    std::vector<ToAsk> all;
    std::size_t steps = 0;
    for (const Technique technique : techniques_of(database)) {
        ToAsk &added = all.emplace_back(ToAsk{technique, values_to_judge(database, technique)});
        added.rounds = hidden_rounds(added.values);
        steps += kProofParts + added.rounds;
    }
    begin(steps);
    for (const auto &[technique, values, rounds] : all) {
        QuestionGroups groups = grouped(asked(values, rounds, advance));
        const auto untried = untried_of(technique, groups, values);
        proofs.untried.insert(proofs.untried.end(), untried.begin(), untried.end());
        const auto proved = proved_of(technique, std::move(groups));
        proofs.proved.insert(proofs.proved.end(), proved.begin(), proved.end());
    }
    return proofs;
}

void store_proofs(library::Database &database, const std::vector<ProvedQuestion> &proofs) {
    library::Transaction transaction(database);
    const library::ChangeId change = library::begin_change(database, "prove", "");
    for (const ProvedQuestion &proof : proofs) {
        const matcher::Recalibration &learned = proof.result.recalibration;
        library::add_proof(database,
                           {.technique = proof.technique,
                            .question = proof.question,
                            .systems = static_cast<std::int64_t>(proof.systems),
                            .questions = static_cast<std::int64_t>(proof.result.questions),
                            .measured_exponent = learned.measured.exponent,
                            .transferred_exponent = learned.transferred.exponent,
                            .unlisted_offset = learned.unlisted_offset,
                            .measured_limit = learned.measured.least_in_set,
                            .transferred_limit = learned.transferred.least_in_set,
                            .unlisted_limit = learned.least_unlisted_in_set,
                            .calibration_error = proof.result.corrected.calibration_error,
                            .at_utc = {}},
                           change);
    }
    transaction.commit();
}

} // namespace cospot

#include "prove/library_proofs.h"

#include "library/changes.h"
#include "library/proofs.h"
#include "library/systems.h"
#include "prove/hidden_systems.h"
#include "prove/judged_library.h"

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
std::vector<JudgedQuestion> asked(const std::vector<SystemValues> &values,
                                  const std::function<void()> &advance) {
    std::vector<JudgedQuestion> all;
    const auto take = [&](std::vector<JudgedQuestion> questions) {
        std::move(questions.begin(), questions.end(), std::back_inserter(all));
        advance();
    };
    for (std::size_t part = 0; part < kProofParts; ++part) {
        take(judge_part(values, part));
    }
    for (std::size_t round = 0; round < hidden_rounds(values); ++round) {
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

} // namespace

LibraryProofs prove_library(library::Database &database,
                            const std::function<void(std::size_t)> &begin,
                            const std::function<void()> &advance) {
    LibraryProofs proofs;
    std::vector<std::pair<Technique, std::vector<SystemValues>>> all;
    std::size_t steps = 0;
    for (const Technique technique : techniques_of(database)) {
        all.emplace_back(technique, values_to_judge(database, technique));
        steps += kProofParts + hidden_rounds(all.back().second);
    }
    begin(steps);
    for (const auto &[technique, values] : all) {
        const QuestionGroups groups = grouped(asked(values, advance));
        for (const auto &[key, questions] : groups) {
            if (questions.size() >= kFewestQuestions) {
                proofs.proved.push_back({technique, key.first, key.second, prove(questions)});
            }
        }
        const auto untried = untried_of(technique, groups, values);
        proofs.untried.insert(proofs.untried.end(), untried.begin(), untried.end());
    }
    return proofs;
}

void store_proofs(library::Database &database, const std::vector<ProvedQuestion> &proofs) {
    library::Transaction transaction(database);
    const std::int64_t change = library::begin_change(database, "prove", "");
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

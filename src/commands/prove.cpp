#include "command.h"
#include "command_line.h"
#include "document/caution.h"
#include "document/style.h"
#include "library/changes.h"
#include "library/proofs.h"
#include "library/systems.h"
#include "open_library.h"
#include "options.h"
#include "output/progress.h"
#include "output/prove_json.h"
#include "output/prove_text.h"
#include "output/verdict_text.h"
#include "proving/hidden_systems.h"
#include "proving/judged_library.h"
#include "proving/proof.h"
#include "report/prove_report.h"
#include "report/report.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <ostream>
#include <utility>
#include <vector>

namespace cospot {

namespace {

using library::ProofQuestion;

/// With fewer questions a correction would be chance.
constexpr std::size_t kFewestQuestions = 50;

/// What had too few questions.
struct Untried {
    Technique technique;
    UntriedKind kind;
    std::size_t questions;
};

struct Proofs {
    std::vector<ProvedQuestion> proved;
    std::vector<Untried> untried;
};

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
std::vector<JudgedQuestion> asked(const std::vector<SystemValues> &values, Progress &progress) {
    std::vector<JudgedQuestion> all;
    const auto take = [&](std::vector<JudgedQuestion> questions) {
        std::move(questions.begin(), questions.end(), std::back_inserter(all));
        progress.advance(1);
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
using Asked = std::map<std::pair<ProofQuestion, std::size_t>, std::vector<JudgedQuestion>>;

Asked grouped(std::vector<JudgedQuestion> questions) {
    Asked groups;
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
std::vector<Untried> untried_of(Technique technique, const Asked &groups,
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
    std::vector<Untried> untried;
    for (const auto &[kind, count] : most) {
        if (count < kFewestQuestions && !values.empty()) {
            untried.push_back({technique, kind, count});
        }
    }
    return untried;
}

Proofs prove_all(library::Database database, std::ostream &err) {
    Proofs proofs;
    std::vector<std::pair<Technique, std::vector<SystemValues>>> all;
    std::size_t steps = 0;
    for (const Technique technique : techniques_of(database)) {
        all.emplace_back(technique, values_to_judge(database, technique));
        steps += kProofParts + hidden_rounds(all.back().second);
    }
    Progress progress(err, "parts", steps);
    for (const auto &[technique, values] : all) {
        const Asked groups = grouped(asked(values, progress));
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

void store(library::Database database, const std::vector<ProvedQuestion> &proofs) {
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

void say_untried(const std::vector<Untried> &untried, std::ostream &err) {
    for (const Untried &one : untried) {
        err << wrapped(untried_sentence(one.technique, one.kind, one.questions, kFewestQuestions),
                       0);
    }
}

void say_stored(const std::vector<ProvedQuestion> &proofs, std::ostream &err) {
    const bool any_corrected =
        std::any_of(proofs.begin(), proofs.end(),
                    [](const ProvedQuestion &proof) { return proof.result.is_corrected; });
    err << (any_corrected ? "stored: identify corrects its probabilities by this from now on\n"
                          : "stored: identify says from now on that its probabilities were proved "
                            "and need\nno correction\n");
}

} // namespace

int run_prove(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] prove [options]",
        "Asks the library for its own values and says how often what it calls probable is right:\n"
        "whole runs are left out, whole days, most compounds of a system, and compounds\n"
        "altogether, with a verdict on each. A correction that does better on values that it was\n"
        "not learned from is stored with its date, and used by identify for features that ask\n"
        "the same. Exit code 1 if it is too sure.");
    options.add()("dry-run", "store nothing");
    add_report_option(options);
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    const auto file_of_report = report_file(options);
    const bool is_dry_run = options.has("dry-run");
    const auto [proofs, untried] =
        prove_all(open_library(invocation, library::Access::read), invocation.err);
    Report report;
    if (file_of_report) {
        // Before the correction is stored, and while no connection is open: closing a file that is
        // read for its checksum drops the locks that SQLite has on it.
        report.trace = trace_of("prove", invocation, {});
    }
    const Style style = style_for(invocation.out);
    for (const ProvedQuestion &proof : proofs) {
        report.results.push_back(prove_json(proof));
        invocation.out << (invocation.json ? json_line(report.results.back())
                                           : prove_text(proof, style))
                       << '\n';
    }
    if (file_of_report) {
        write_report(*file_of_report, report, prove_report());
    }
    if (proofs.empty()) {
        invocation.err << wrapped("nothing to prove: no technique has 50 values that could be left "
                                  "out and asked for",
                                  0);
        say_untried(untried, invocation.err);
        return kNeedsAttention;
    }
    if (!is_dry_run) {
        store(open_library(invocation, library::Access::write), proofs);
        invocation.has_changed = true;
        say_stored(proofs, invocation.err);
    }
    say_untried(untried, invocation.err);
    if (!invocation.json) {
        invocation.out << wrapped(kRetentionIsNoProof, 0);
    }
    const bool too_sure =
        std::any_of(proofs.begin(), proofs.end(),
                    [](const ProvedQuestion &proof) { return is_any_too_sure(proof.result); });
    return too_sure ? kNeedsAttention : kDone;
}

} // namespace cospot

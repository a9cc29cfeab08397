#include "command.h"
#include "command_line.h"
#include "library/changes.h"
#include "library/proofs.h"
#include "library/systems.h"
#include "open_library.h"
#include "options.h"
#include "output/caution.h"
#include "output/progress.h"
#include "output/prove_json.h"
#include "output/prove_text.h"
#include "output/style.h"
#include "output/verdict_text.h"
#include "proving/judged_library.h"
#include "proving/proof.h"
#include "report/prove_report.h"
#include "report/report.h"

#include <algorithm>
#include <iterator>
#include <ostream>
#include <vector>

namespace cospot {

namespace {

/// With fewer questions a correction would be chance.
constexpr std::size_t kFewestQuestions = 50;

struct TechniqueProof {
    Technique technique;
    bool several_systems;
    ProofResult result;
};

/// Kinds of features that had too few questions.
struct Untried {
    Technique technique;
    bool several_systems;
    std::size_t questions;
};

struct Proofs {
    std::vector<TechniqueProof> proved;
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

Proofs prove_all(library::Database database, std::ostream &err) {
    Proofs proofs;
    const std::vector<Technique> techniques = techniques_of(database);
    Progress progress(err, "parts", techniques.size() * kProofParts);
    for (const Technique technique : techniques) {
        const std::vector<SystemValues> values = values_to_judge(database, technique);
        std::vector<JudgedQuestion> all;
        for (std::size_t part = 0; part < kProofParts; ++part) {
            const auto asked = judge_part(values, part);
            all.insert(all.end(), asked.begin(), asked.end());
            progress.advance(1);
        }
        for (const bool several : {false, true}) {
            std::vector<JudgedQuestion> questions;
            std::copy_if(all.begin(), all.end(), std::back_inserter(questions),
                         [&](const JudgedQuestion &one) { return one.several_systems == several; });
            if (questions.size() >= kFewestQuestions) {
                proofs.proved.push_back({technique, several, prove(questions)});
            } else if (several ? are_of_several_systems(values) : !values.empty()) {
                proofs.untried.push_back({technique, several, questions.size()});
            }
        }
    }
    return proofs;
}

void store(library::Database database, const std::vector<TechniqueProof> &proofs) {
    library::Transaction transaction(database);
    const std::int64_t change = library::begin_change(database, "prove", "");
    for (const TechniqueProof &proof : proofs) {
        const matcher::Recalibration &learned = proof.result.recalibration;
        library::add_proof(database,
                           {.technique = proof.technique,
                            .several_systems = proof.several_systems,
                            .questions = static_cast<std::int64_t>(proof.result.questions),
                            .exponent = learned.exponent,
                            .least_in_set = learned.least_in_set,
                            .calibration_error = proof.result.corrected.calibration_error,
                            .at_utc = {}},
                           change);
    }
    transaction.commit();
}

void say_untried(const std::vector<Untried> &untried, std::ostream &err) {
    for (const Untried &one : untried) {
        err << wrapped(
            untried_sentence(one.technique, one.several_systems, one.questions, kFewestQuestions),
            0);
    }
}

void say_stored(const std::vector<TechniqueProof> &proofs, std::ostream &err) {
    const bool any_corrected =
        std::any_of(proofs.begin(), proofs.end(),
                    [](const TechniqueProof &proof) { return proof.result.is_corrected; });
    err << (any_corrected ? "stored: identify corrects its probabilities by this from now on\n"
                          : "stored: identify says from now on that its probabilities were proved "
                            "and need\nno correction\n");
}

} // namespace

int run_prove(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] prove [options]",
        "Asks the library for its own values, left out run by run and compound by compound, and\n"
        "says how often what it calls probable is right. A correction that does better on values\n"
        "that it was not learned from is stored with its date and used by identify from then\n"
        "on. Exit code 1 if it is too sure.");
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
    for (const TechniqueProof &proof : proofs) {
        report.results.push_back(prove_json(proof.technique, proof.several_systems, proof.result));
        invocation.out << (invocation.json ? json_line(report.results.back())
                                           : prove_text(proof.technique, proof.several_systems,
                                                        proof.result, style))
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
        std::any_of(proofs.begin(), proofs.end(), [](const TechniqueProof &proof) {
            return is_too_sure(verdict(proof.result.corrected));
        });
    return too_sure ? kNeedsAttention : kDone;
}

} // namespace cospot

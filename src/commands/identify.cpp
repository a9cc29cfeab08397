#include "candidate_options.h"
#include "command.h"
#include "command_line.h"
#include "document/caution.h"
#include "document/style.h"
#include "evidence/input_features.h"
#include "evidence/library_evidence.h"
#include "explanation/explanation.h"
#include "identification/identification.h"
#include "identification/loaded_features.h"
#include "identification/proof_corrections.h"
#include "input_options.h"
#include "library/compounds.h"
#include "open_library.h"
#include "options.h"
#include "output/explanation_text.h"
#include "output/identify_json.h"
#include "output/identify_text.h"
#include "output/progress.h"
#include "readers/input_file.h"
#include "readers/prior_table.h"
#include "report/identify_report.h"
#include "report/report.h"
#include "shared/parallel.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>
#include <string>
#include <utility>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;

void add_identify_options(CommandOptions &options) {
    add_input_options(options);
    options.add()("explain", "why each candidate has its probability, and what to measure next")(
        "no-recalibration", "probabilities as computed, whatever prove found")(
        "no-correction", "do not look for how the run lies against the library")(
        "sample", po::value<std::string>(), "name of a chromatogram's sample (else its file's)")(
        "prior", po::value<std::string>(), "table compound, weight of suspected compounds")(
        "top", po::value<int>()->default_value(10), "most candidates listed for a feature");
    add_candidate_options(options);
    options.positional("file", 1, "what to identify");
}

InputSettings settings_of(const CommandOptions &options) {
    InputSettings settings = input_settings(options);
    if (options.has("sample")) {
        settings.sample = options.get<std::string>("sample");
    }
    return settings;
}

matcher::Prior prior_of(const CommandOptions &options, const LibraryEvidence &evidence,
                        library::Database &database, std::istream &standard_input) {
    matcher::Prior prior;
    prior.unlisted = prior_unlisted(options);
    if (!options.has("prior")) {
        return prior;
    }
    prior.weights.assign(compound_count(evidence), 1.0);
    InputFile file(options.get<std::string>("prior"), standard_input);
    for (const PriorWeight &weight : read_prior(file.stream(), file.name())) {
        const auto compounds = library::find_by_name(database, weight.compound);
        if (compounds.empty()) {
            throw InputError(weight.where, in_quotes(weight.compound),
                             "a compound of the library (cospot list)");
        }
        for (const library::Compound &compound : compounds) {
            const std::ptrdiff_t index = index_of_compound(evidence, compound.id);
            if (index >= 0) {
                prior.weights[static_cast<std::size_t>(index)] = weight.weight;
            }
        }
    }
    return prior;
}

IdentificationOptions identification_options(const CommandOptions &options,
                                             const LibraryEvidence &evidence,
                                             library::Database &database,
                                             std::istream &standard_input) {
    IdentificationOptions result;
    result.prior.feature = prior_of(options, evidence, database, standard_input);
    result.prior.learn_unlisted = !options.is_given("prior-unlisted");
    result.search = options.has("no-correction") ? RunSearch::not_wanted : RunSearch::wanted;
    result.top = top_of(options);
    return result;
}

/// On which systems compounds differ before measuring.
void add_run_count_notes(const LibraryEvidence &evidence, std::vector<std::string> &notes) {
    for (std::size_t i = 0; i < evidence.systems.size(); ++i) {
        if (evidence.knowledge.systems[i].run_counts.do_tell()) {
            notes.push_back(fmt::format("{}: what was seen in more of the library's runs counts as "
                                        "likelier before measuring (--prior sets your own weights)",
                                        evidence.systems[i].system.name));
        }
    }
}

/// What holds for all features: the systems, how they relate, how the input was read.
std::vector<std::string> common_notes(const FeatureSet &set, const LibraryEvidence &evidence,
                                      const IdentificationOptions &how) {
    std::vector<std::string> notes;
    for (std::size_t i = 0; i < evidence.systems.size(); ++i) {
        const library::System &system = evidence.systems[i].system;
        std::string conditions;
        for (const std::string *text :
             {&system.stationary_phase, &system.mobile_phase, &system.programme}) {
            conditions += text->empty() ? "" : ", " + *text;
        }
        notes.push_back(fmt::format("{} ({}{}): {} compounds with {}", system.name,
                                    to_text(system.technique), conditions,
                                    matcher::candidate_count(evidence.knowledge.systems[i]),
                                    to_text(evidence.systems[i].quantity)));
    }
    if (how.prior.feature.weights.empty()) {
        add_run_count_notes(evidence, notes);
    }
    notes.insert(notes.end(), evidence.notes.begin(), evidence.notes.end());
    notes.insert(notes.end(), set.notes.begin(), set.notes.end());
    return notes;
}

void print_notes(const std::vector<std::string> &notes, std::ostream &out) {
    for (const std::string &note : notes) {
        out << wrapped(printable(note), 0);
    }
}

std::string prior_note(const IdentificationOptions &how) {
    return fmt::format("Probability of a compound outside the library before measuring: {:g}",
                       how.prior.feature.unlisted);
}

std::vector<ExplanationWords> explained(const SampleIdentification &sample,
                                        const LibraryEvidence &evidence,
                                        const IdentificationOptions &how,
                                        MeasuredSystems &measured) {
    const std::vector<const Feature *> &features = sample.asked;
    const auto explanations = explain_sample(features, sample, evidence, how, measured);
    std::vector<ExplanationWords> words;
    for (std::size_t i = 0; i < features.size(); ++i) {
        words.push_back(
            explanation_words(explanations[i], *features[i], sample.features[i], features));
    }
    return words;
}

CommandOptions identify_options() {
    CommandOptions options(
        "cospot [--library FILE] [--json] identify FILE [options]",
        "Ranks the library's compounds for each spot or peak of FILE, with the probability that\n"
        "it is none of them. FILE (or - for standard input) is one of\n"
        "  a plate:         lane,label,spot,distance_mm,front_mm,role   needs --system\n"
        "  a chromatogram:  peak,tR,area                                needs --system\n"
        "  a long table:    sample,feature,system,quantity,value,uncertainty; also uv254 (yes or "
        "no),\n"
        "                   stain and stained (yes or no), molar_mass, formula");
    add_identify_options(options);
    add_report_option(options);
    return options;
}

/// What is to become of the results.
struct Destination {
    const Invocation &invocation;
    Style style;
    bool is_explained = false; ///< in the text
    bool is_reported = false;  ///< kept for a report

    [[nodiscard]] bool needs_words() const {
        return invocation.json || is_reported || is_explained;
    }
};

/// What was found about the features of one run.
struct AnsweredRun {
    RunIdentification found;
    std::vector<std::vector<std::string>>
        texts; ///< by sample, one a feature; for a reader, or empty
};

/// Several threads answer for runs at once; the database is left to `compounds` meanwhile.
AnsweredRun answered(const std::vector<const Feature *> &features, const LibraryEvidence &evidence,
                     KnownCompounds &compounds, const IdentificationOptions &how,
                     const Destination &to) {
    AnsweredRun run{identify_run(features, evidence, compounds, how), {}};
    for (SampleIdentification &sample : run.found.samples) {
        std::vector<std::string> &texts = run.texts.emplace_back();
        for (std::size_t i = 0; i < sample.asked.size() && !to.invocation.json; ++i) {
            texts.push_back(identify_text(*sample.asked[i], sample.features[i], to.style));
        }
        if (!to.needs_words()) {
            sample.observed.clear(); // large, and asked for by explanations only
            sample.ranking = {};
        }
    }
    return run;
}

/// Prints what was found about the features of one sample, and keeps it where a report needs it.
void put_out(const SampleIdentification &sample, const std::vector<std::string> &texts,
             const std::vector<ExplanationWords> &words, const RunIdentification &run,
             const Destination &to, Report &report) {
    const Invocation &invocation = to.invocation;
    for (std::size_t i = 0; i < sample.asked.size(); ++i) {
        const Identification &result = sample.features[i];
        Json json;
        if (invocation.json || to.is_reported) {
            json = identify_json(*sample.asked[i], result, words[i], run.places, run.notes);
        }
        if (invocation.json) {
            invocation.out << json_line(json) << '\n';
        } else {
            invocation.out << texts[i]
                           << (to.is_explained ? explanation_text(words[i], result, to.style) : "")
                           << '\n';
        }
        if (to.is_reported) {
            report.results.push_back(std::move(json));
        }
    }
}

/// Prints what holds for a run or a sample, with its name where there are several.
void put_out(const std::vector<std::string> &notes, const std::string &name, const Destination &to,
             Report &report) {
    for (const std::string &note : notes) {
        const bool is_warning = note.starts_with("! ");
        report.notes.push_back(name.empty() ? note
                                            : fmt::format("{}{}: {}", is_warning ? "! " : "", name,
                                                          is_warning ? note.substr(2) : note));
        (to.invocation.json ? to.invocation.err : to.invocation.out)
            << wrapped(printable(report.notes.back()), 0);
    }
}

/// Answers for all runs; returns whether one of them needs a look.
bool identify_runs(const std::vector<Feature> &all, const LibraryEvidence &evidence,
                   library::Database &database, const IdentificationOptions &how,
                   const Destination &to, Report &report) {
    constexpr std::size_t at_once = 32;
    MeasuredSystems measured(database);
    KnownCompounds compounds(evidence, database);
    Progress progress(to.invocation.err, "features", all.size());
    bool needs_attention = false;
    bool is_headed = false;
    const auto together = runs_of(all);
    for (std::size_t first = 0; first < together.size(); first += at_once) {
        std::vector<AnsweredRun> runs(std::min(at_once, together.size() - first));
        for_each_in_parallel(
            runs.size(),
            [&](std::size_t i) {
                runs[i] = answered(together[first + i], evidence, compounds, how, to);
            },
            1);
        for (const AnsweredRun &run : runs) {
            needs_attention |= run.found.needs_attention;
            progress.clear();
            put_out(run.found.notes, run.found.samples.front().asked.front()->run, to, report);
            if (!is_headed && !to.invocation.json) {
                to.invocation.out << '\n' << to.style.faint(identify_heading()) << '\n';
            }
            is_headed = true;
            for (std::size_t s = 0; s < run.found.samples.size(); ++s) {
                const SampleIdentification &sample = run.found.samples[s];
                const auto words = to.needs_words()
                                       ? explained(sample, evidence, how, measured)
                                       : std::vector<ExplanationWords>(sample.asked.size());
                put_out(sample, run.texts[s], words, run.found, to, report);
                put_out(sample.notes, sample.asked.front()->sample, to, report);
                progress.advance(sample.asked.size());
            }
        }
    }
    return needs_attention;
}

} // namespace

int run_identify(const Invocation &invocation) {
    CommandOptions options = identify_options();
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    if (!options.has("file")) {
        throw InputError({"command line", 0, ""}, "no file", "a FILE to identify, or -");
    }
    const auto file_of_report = report_file(options);
    library::Database database = open_library(invocation, library::Access::read);
    TracedInputs inputs(file_of_report ? input_names(options, {"ladder", "prior", "also"})
                                       : std::vector<std::string>{},
                        invocation.in);
    std::istream &standard_input = inputs.standard_input();
    InputFile input(options.get<std::vector<std::string>>("file").front(), standard_input);
    FeatureSet set = read_features(database, input.read_all(), input.name(), settings_of(options),
                                   standard_input);
    // Weights may be of any compound.
    const Extent extent = options.has("prior") ? Extent::all : Extent::within_reach;
    auto [features, evidence] =
        load_features(database, std::move(set), extent, also_file(options), standard_input);
    IdentificationOptions how = identification_options(options, evidence, database, standard_input);
    if (!options.has("no-recalibration")) {
        apply_proofs(how, features.features, evidence, database, features.notes);
    }

    Report report;
    report.notes = common_notes(features, evidence, how);
    const Destination to{invocation, style_for(invocation.out), options.has("explain"),
                         file_of_report.has_value()};
    print_notes(report.notes, invocation.json ? invocation.err : invocation.out);
    how.fills_set = invocation.json || to.is_reported;
    const bool needs_a_look = identify_runs(features.features, evidence, database, how, to, report);
    report.notes.push_back(prior_note(how));
    if (!invocation.json) {
        invocation.out << report.notes.back() << '\n' << wrapped(kRetentionIsNoProof, 0);
    }
    if (file_of_report) {
        report.trace = trace_of("identify", invocation, inputs.traces());
        write_report(*file_of_report, report, identify_report());
    }
    return needs_a_look || needs_attention(features, evidence) ? kNeedsAttention : kDone;
}

} // namespace cospot

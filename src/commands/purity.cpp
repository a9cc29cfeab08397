#include "candidate_options.h"
#include "command.h"
#include "command_line.h"
#include "compound_options.h"
#include "document/caution.h"
#include "document/style.h"
#include "evidence/input_features.h"
#include "evidence/library_evidence.h"
#include "identification/loaded_features.h"
#include "identification/proof_corrections.h"
#include "input_options.h"
#include "library/compounds.h"
#include "library/responses.h"
#include "library_names.h"
#include "open_library.h"
#include "options.h"
#include "output/purity_json.h"
#include "output/purity_text.h"
#include "purity/judge.h"
#include "purity/trend.h"
#include "readers/input_file.h"
#include "readers/purity_rules.h"
#include "report/purity_report.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>
#include <string>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;

using Texts = std::vector<std::string>;

/// Candidates that are looked at for each feature.
constexpr std::size_t kCandidates = 50;

void add_purity_options(CommandOptions &options) {
    options.add()("declared", po::value<std::string>(), "what the sample is declared to be")(
        "expected", po::value<Texts>()->composing(),
        "an impurity that may be in it; repeat it, or give a file with one name a line")(
        "dose-mg-per-day", po::value<double>(),
        "highest daily dose of the declared compound: the guideline's thresholds for it")(
        "for", po::value<std::string>()->default_value("substance"),
        "whose guideline: substance (new substances) or product (degradation)")(
        "rules", po::value<std::string>(), "rules of your own instead (JSON, see README)")(
        "blank", po::value<std::string>(), "what a blank shows on the same system")(
        "blank-ladder", po::value<std::string>(), "the ladder run with the blank")(
        "blank-hold-up", po::value<double>(), "the blank's own hold-up time in min")(
        "detector", po::value<std::string>(), "uv, where it is: says what it cannot see")(
        "detection-limit-percent", po::value<double>(), "below it nothing is seen")(
        "sample", po::value<std::string>(), "the one to judge, where a file holds several");
    add_candidate_options(options);
    add_input_options(options);
    add_report_option(options);
    options.positional("file", -1, "one sample a file");
}

purity::Declaration declaration_of(const CommandOptions &options, const purity::Rules &rules,
                                   library::Database &database, std::istream &standard_input) {
    if (!options.has("declared")) {
        throw InputError({"command line", 0, ""}, "no --declared", "--declared NAME");
    }
    const library::Compound declared =
        compound_named(database, options.get<std::string>("declared"), at_option("declared"));
    purity::Declaration declaration{declared.name, declared.id, {}, {}};
    const auto expect = [&](const library::Compound &compound) {
        if (compound.id != declared.id) {
            declaration.expected.push_back(compound.name);
            declaration.expected_ids.push_back(compound.id);
        }
    };
    for (const library::Compound &compound :
         named_compounds(options, "expected", database, standard_input)) {
        expect(compound);
    }
    for (const purity::SpecifiedLimit &limit : rules.specified) {
        expect(
            compound_named(database, limit.compound, {"command line, --rules, specified", 0, ""}));
    }
    return declaration;
}

purity::Limits limits_of(const CommandOptions &options, std::istream &standard_input) {
    purity::Limits limits;
    limits.dose_mg = options.positive("dose-mg-per-day");
    limits.detection_percent = options.positive("detection-limit-percent", 100.0);
    if (options.has("rules")) {
        InputFile file(options.get<std::string>("rules"), standard_input);
        limits.rules = read_purity_rules(file.read_all(), file.name());
    } else if (limits.dose_mg) {
        limits.rules = guideline_rules(options.get<std::string>("for"));
    }
    if (needs_dose(limits.rules) && !limits.dose_mg) {
        throw InputError({"command line", 0, ""}, "no --dose-mg-per-day",
                         "the highest daily dose: thresholds of these rules depend on it");
    }
    return limits;
}

bool is_by_ultraviolet(const CommandOptions &options) {
    if (options.has("detector") && options.get<std::string>("detector") != "uv") {
        throw InputError(at_option("detector"), in_quotes(options.get<std::string>("detector")),
                         "uv; of other detectors nothing is said");
    }
    return options.has("detector");
}

/// All that stays the same over the files of one call.
struct Work {
    const Invocation &invocation;
    std::istream &standard_input;
    const CommandOptions &options;
    library::Database &database;
    InputSettings settings;
    std::optional<std::string> sample; ///< the only one that is judged
    purity::Limits limits;
    purity::Declaration declaration;
};

FeatureSet features_in(const std::string &name, const InputSettings &settings, Work &work) {
    InputFile file(name, work.standard_input);
    return read_features(work.database, file.read_all(), file.name(), settings,
                         work.standard_input);
}

/// The blank is another run: the sample's ladder and hold-up time do not hold for it.
FeatureSet blank_of(Work &work) {
    const auto name = work.options.text("blank");
    if (!name) {
        for (const char *option : {"blank-ladder", "blank-hold-up"}) {
            if (work.options.has(option)) {
                throw InputError(at_option(option), "no --blank", "--blank FILE as well");
            }
        }
        return {};
    }
    InputSettings settings = work.settings;
    settings.is_blank = true;
    settings.ladder_file = work.options.text("blank-ladder");
    settings.hold_up_min = work.options.positive("blank-hold-up");
    settings.reference.peak.reset();
    return features_in(*name, settings, work);
}

/// The declared compound must be comparable on the system of the sample.
void check_declared(const Work &work, const LibraryEvidence &evidence) {
    if (index_of_compound(evidence, work.declaration.declared_id) < 0) {
        throw InputError(at_option("declared"),
                         fmt::format("{}, of which the library holds nothing on {}",
                                     in_quotes(work.declaration.declared),
                                     evidence.systems.empty()
                                         ? "any system of the file"
                                         : in_quotes(evidence.systems.front().system.name)),
                         "a compound that was measured there: run its standard and learn it (where "
                         "it is the reference itself, its RRT or r of 1)");
    }
}

purity::Question question_of(Work &work, const LibraryEvidence &evidence) {
    const library::System &system = evidence.systems.front().system;
    purity::Question question{
        work.declaration, work.limits, {system.technique, is_by_ultraviolet(work.options)}, {}};
    question.response_of = [&work, id = system.id](const std::string &name) {
        const auto compounds = library::find_by_name(work.database, name);
        return compounds.size() == 1
                   ? library::response_factor(work.database, id, compounds.front().id,
                                              work.declaration.declared_id)
                   : std::nullopt;
    };
    return question;
}

std::vector<purity::JudgedSample> judge_file(const std::string &name, Work &work) {
    const FeatureSet blank = blank_of(work);
    auto [set, evidence] = load_features(work.database, features_in(name, work.settings, work),
                                         Extent::all, also_file(work.options), work.standard_input);
    check_declared(work, evidence);
    const purity::Question question = question_of(work, evidence);
    IdentificationOptions how;
    how.top = kCandidates;
    how.prior.feature = purity::prior_of(work.declaration, evidence, prior_unlisted(work.options));
    how.prior.learn_unlisted = !work.options.is_given("prior-unlisted");
    apply_proofs(how, set.features, evidence, work.database, set.notes);
    std::vector<purity::JudgedSample> samples;
    for (const auto &together : lanes_of(all_of(set.features))) {
        if (work.sample && together.front()->sample != *work.sample) {
            continue;
        }
        std::vector<Feature> features;
        features.reserve(together.size());
        for (const Feature *feature : together) {
            features.push_back(*feature);
        }
        samples.push_back(purity::judge({name, features, set.scale, blank}, question, evidence,
                                        work.database, how));
        if (samples.size() == 1) { // what holds for the whole file is said once
            samples.back().notes.insert(samples.back().notes.begin(), set.notes.begin(),
                                        set.notes.end());
        }
    }
    if (samples.empty()) {
        throw InputError({name, 0, ""}, "no sample " + in_quotes(*work.sample),
                         "a sample of that name, for --sample");
    }
    return samples;
}

std::string limits_note(const purity::Rules &rules) {
    return rules.name.empty() ? "No limits were given: --dose-mg-per-day or --rules."
                              : fmt::format("Limits: {}{}{}", rules.name,
                                            rules.source.empty() ? "" : ", ", rules.source);
}

void print_text(const Work &work, const std::vector<purity::JudgedSample> &samples) {
    std::ostream &out = work.invocation.out;
    const Style style = style_for(out);
    for (const purity::JudgedSample &sample : samples) {
        out << purity_text(sample, style) << '\n';
    }
    if (samples.size() > 1) {
        out << trend_text(purity::trend_of(samples), style);
    }
    out << wrapped(printable(limits_note(work.limits.rules)), 0) << wrapped(kRetentionIsNoProof, 0);
}

Json results_of(const std::vector<purity::JudgedSample> &samples) {
    Json results = Json::array();
    for (const purity::JudgedSample &sample : samples) {
        results.push_back(purity_json(sample));
    }
    if (samples.size() > 1) {
        results.push_back(trend_json(purity::trend_of(samples)));
    }
    return results;
}

} // namespace

int run_purity(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] purity FILE... --declared NAME [options]",
        "Judges samples against what they are declared to be: which peak or spot it is and how\n"
        "sure that is, what else is there, and by which rule that is in order. Exit code 1 unless\n"
        "every rule is met. Several files are followed over time.");
    add_purity_options(options);
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    if (!options.has("file")) {
        throw InputError({"command line", 0, ""}, "no file", "a FILE with the spots or peaks");
    }
    const auto file_of_report = report_file(options);
    TracedInputs inputs(
        file_of_report
            ? input_names(options, {"ladder", "blank", "blank-ladder", "rules", "also"}, "expected")
            : Texts{},
        invocation.in);
    const purity::Limits limits = limits_of(options, inputs.standard_input());
    library::Database database = open_library(invocation, library::Access::read);
    Work work{invocation,
              inputs.standard_input(),
              options,
              database,
              input_settings(options),
              options.text("sample"),
              limits,
              declaration_of(options, limits.rules, database, inputs.standard_input())};
    work.settings.reference.declared = work.declaration.declared;
    work.settings.names_peaks = false; // their areas count
    work.settings.may_stand_alone = false;
    std::vector<purity::JudgedSample> samples;
    for (const std::string &name : options.get<Texts>("file")) {
        for (purity::JudgedSample &sample : judge_file(name, work)) {
            samples.push_back(std::move(sample));
        }
    }
    const Json results = results_of(samples);
    if (invocation.json) {
        invocation.out << json_lines(results);
    } else {
        print_text(work, samples);
    }
    if (file_of_report) {
        write_report(
            *file_of_report,
            {trace_of("purity", invocation, inputs.traces()), {limits_note(limits.rules)}, results},
            purity_report());
    }
    const bool in_order = std::all_of(samples.begin(), samples.end(), purity::is_in_order);
    return in_order ? kDone : kNeedsAttention;
}

} // namespace cospot

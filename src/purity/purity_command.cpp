#include "evidence/input_features.h"
#include "evidence/library_evidence.h"
#include "identification/loaded_features.h"
#include "identification/proof_corrections.h"
#include "library/compounds.h"
#include "library/names.h"
#include "library/responses.h"
#include "options/candidate_options.h"
#include "options/command.h"
#include "options/compound_options.h"
#include "options/input_options.h"
#include "options/open_library.h"
#include "options/options.h"
#include "options/table_options.h"
#include "purity/judge.h"
#include "purity/purity_document.h"
#include "purity/purity_json.h"
#include "purity/trend.h"
#include "readers/input_file.h"
#include "readers/purity_rules.h"
#include "report/presentation.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;

using Texts = std::vector<std::string>;

/// Candidates that are looked at for each feature.
constexpr std::size_t kCandidates = 50;

/// What the user asked for, but for the compounds, which are looked up in the library.
struct PurityOptions {
    Texts files;
    std::optional<std::string> sample; ///< the only one that is judged
    InputSettings settings;
    std::optional<std::string> blank_file;
    InputSettings blank_settings;
    purity::Limits limits;
    const purity::Detector *detector = nullptr;
    double prior_unlisted = 0.0;
    bool learns_unlisted = true;
    std::optional<std::string> also_file;
};

void add_purity_options(CommandOptions &options) {
    options.add()("declared", po::value<std::string>(), "what the sample is declared to be")(
        "expected", po::value<Texts>()->composing(),
        "an impurity that may be in it; repeat it, or give a file with one name a line")(
        "confirmed", po::value<Texts>()->composing(),
        "a compound whose identity in these samples you confirmed with a reference standard or an "
        "independent method; repeat it, or give a file with one name a line")(
        "dose-mg-per-day", po::value<double>(),
        "highest daily dose of the declared compound: the guideline's thresholds for it")(
        "for", po::value<std::string>()->default_value("substance"),
        "whose guideline: substance (new substances) or product (degradation)")(
        "rules", po::value<std::string>(), "rules of your own instead (JSON, see README)")(
        "blank", po::value<std::string>(), "what a blank shows on the same system")(
        "blank-ladder", po::value<std::string>(), "the ladder run with the blank")(
        "blank-hold-up", po::value<double>(), "the blank's own hold-up time in min")(
        "detector", po::value<std::string>(),
        ("says what it cannot see: " + purity::detector_names({})).c_str())(
        "detection-limit-percent", po::value<double>(), "below it nothing is seen")(
        "sample", po::value<std::string>(), "the one to judge, where a file holds several");
    add_candidate_options(options);
    add_input_options(options);
    add_partial_option(options);
    add_report_option(options);
    options.positional("file", -1, "one sample a file");
}

purity::Limits limits_in(const CommandOptions &options, std::istream &standard_input) {
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
        throw bad_usage("no --dose-mg-per-day",
                        "the highest daily dose: thresholds of these rules depend on it");
    }
    return limits;
}

const purity::Detector *detector_in(const CommandOptions &options) {
    if (!options.has("detector")) {
        return nullptr;
    }
    const auto &name = options.get<std::string>("detector");
    const purity::Detector *detector = purity::find_detector(name);
    if (detector == nullptr) {
        throw bad_option("detector", in_quotes(name),
                         purity::detector_names({}) + "; of others nothing is said");
    }
    return detector;
}

/// A detector that the system's technique does not have would say wrong things.
void check_detector(const purity::Detector *detector, const library::System &system) {
    if (detector != nullptr && std::find(detector->techniques.begin(), detector->techniques.end(),
                                         system.technique) == detector->techniques.end()) {
        throw bad_option("detector",
                         fmt::format("{}, but {} is a system of {}", detector->name,
                                     in_quotes(system.name), in_words(system.technique)),
                         purity::detector_names(system.technique));
    }
}

/// The blank is another run: the sample's ladder and hold-up time do not hold for it.
void read_blank_options(const CommandOptions &options, PurityOptions &asked) {
    asked.blank_file = options.text("blank");
    for (const char *option : {"blank-ladder", "blank-hold-up"}) {
        if (!asked.blank_file && options.has(option)) {
            throw bad_option(option, "no --blank", "--blank FILE as well");
        }
    }
    asked.blank_settings = asked.settings;
    asked.blank_settings.is_blank = true;
    asked.blank_settings.ladder_file = options.text("blank-ladder");
    asked.blank_settings.hold_up_min = options.positive("blank-hold-up");
    asked.blank_settings.reference.peak.reset();
}

PurityOptions purity_options(const CommandOptions &options, std::istream &standard_input) {
    PurityOptions asked;
    asked.files = options.get<Texts>("file");
    asked.sample = options.text("sample");
    asked.limits = limits_in(options, standard_input);
    asked.detector = detector_in(options);
    asked.prior_unlisted = prior_unlisted(options);
    asked.learns_unlisted = !options.is_given("prior-unlisted");
    asked.also_file = also_file(options);
    asked.settings = input_settings(options);
    asked.settings.form.is_partial = options.has("partial");
    asked.settings.names_peaks = false; // their areas count
    asked.settings.may_stand_alone = false;
    read_blank_options(options, asked);
    return asked;
}

purity::Declaration declaration_of(const CommandOptions &options, const purity::Rules &rules,
                                   library::Database &database, std::istream &standard_input) {
    if (!options.has("declared")) {
        throw bad_usage("no --declared", "--declared NAME");
    }
    const library::Compound declared =
        compound_in_use(database, options.get<std::string>("declared"), at_option("declared"));
    purity::Declaration declaration{declared.name, declared.id, {}, {}, {}};
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
    for (const library::Compound &compound :
         named_compounds(options, "confirmed", database, standard_input)) {
        declaration.confirmed.push_back(compound.name);
    }
    for (const purity::SpecifiedLimit &limit : rules.specified) {
        expect(
            compound_named(database, limit.compound, {"command line, --rules, specified", 0, ""}));
    }
    return declaration;
}

/// Judges one file after the other.
class Judging {
public:
    Judging(const PurityOptions &asked, purity::Declaration declaration,
            library::Database &database, std::istream &standard_input)
        : asked_(asked), declaration_(std::move(declaration)), database_(database),
          standard_input_(standard_input) {}

    void judge_file(const std::string &name, purity::PurityResult &result) {
        const FeatureSet blank = asked_.blank_file
                                     ? features_in(*asked_.blank_file, asked_.blank_settings)
                                     : FeatureSet{};
        auto [set, evidence] = load_features(database_, features_in(name, asked_.settings),
                                             Extent::all, asked_.also_file, standard_input_);
        check_declared(evidence);
        const purity::Question question = question_of(evidence);
        IdentificationOptions how;
        how.top = kCandidates;
        how.prior.feature = purity::prior_of(declaration_, evidence, asked_.prior_unlisted);
        how.prior.learn_unlisted = asked_.learns_unlisted;
        apply_proofs(how, set.features, evidence, database_, set.notes);
        purity::JudgedFile file{set.notes};
        for (const auto &together : lanes_of(all_of(set.features))) {
            if (asked_.sample && together.front()->sample != *asked_.sample) {
                continue;
            }
            std::vector<Feature> features;
            features.reserve(together.size());
            for (const Feature *feature : together) {
                features.push_back(*feature);
            }
            result.samples.push_back(
                purity::judge({name, features, set.scales[features.front().run], blank}, question,
                              evidence, database_, how));
            ++file.count;
        }
        if (file.count == 0) {
            throw InputError({name, 0, ""}, "no sample " + in_quotes(*asked_.sample),
                             "a sample of that name, for --sample");
        }
        result.files.push_back(std::move(file));
    }

private:
    FeatureSet features_in(const std::string &name, InputSettings settings) {
        settings.reference.declared = declaration_.declared;
        InputFile file(name, standard_input_);
        return read_features(database_, file.read_all(), file.name(), settings, standard_input_);
    }

    /// The declared compound must be comparable on the system of the sample.
    void check_declared(const LibraryEvidence &evidence) const {
        if (!index_of_compound(evidence, declaration_.declared_id)) {
            throw bad_option("declared",
                             fmt::format("{}, of which the library holds nothing on {}",
                                         in_quotes(declaration_.declared),
                                         evidence.systems.empty()
                                             ? "any system of the file"
                                             : in_quotes(evidence.systems.front().system.name)),
                             "a compound that was measured there: run its standard and learn it "
                             "(where it is the reference itself, its RRT or r of 1)");
        }
    }

    purity::Question question_of(const LibraryEvidence &evidence) {
        const library::System &system = evidence.systems.front().system;
        check_detector(asked_.detector, system);
        purity::Question question{
            declaration_, asked_.limits, {system.technique, asked_.detector}, {}};
        question.response_of = [this, id = system.id](const std::string &name) {
            const auto compounds = library::find_by_name(database_, name);
            return compounds.size() == 1
                       ? library::response_factor(database_, id, compounds.front().id,
                                                  declaration_.declared_id)
                       : std::nullopt;
        };
        return question;
    }

    const PurityOptions &asked_;
    purity::Declaration declaration_;
    library::Database &database_;
    std::istream &standard_input_;
};

std::string limits_note(const purity::Rules &rules) {
    return rules.name.empty() ? "No limits were given: --dose-mg-per-day or --rules."
                              : fmt::format("Limits: {}{}{}", rules.name,
                                            rules.source.empty() ? "" : ", ", rules.source);
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
        throw bad_usage("no file", "a FILE with the spots or peaks");
    }
    Presentation presentation(invocation, options);
    TracedInputs inputs(
        presentation.has_report()
            ? input_names(options, {"ladder", "blank", "blank-ladder", "rules", "also"}, "expected")
            : Texts{},
        invocation.in);
    const PurityOptions asked = purity_options(options, inputs.standard_input());
    library::Database database = open_library(invocation, library::Access::read);
    purity::Declaration declaration =
        declaration_of(options, asked.limits.rules, database, inputs.standard_input());
    purity::PurityResult result{.declared = declaration.declared};
    Judging judging(asked, std::move(declaration), database, inputs.standard_input());
    for (const std::string &name : asked.files) {
        judging.judge_file(name, result);
    }
    if (result.samples.size() > 1) {
        result.trend = purity::trend_of(result.samples, asked.limits);
    }
    if (presentation.needs_json()) {
        for (Json &object : purity_results(result)) {
            presentation.add(std::move(object));
        }
    }
    presentation.finish(
        {limits_note(asked.limits.rules)}, [&] { return purity_document(result); },
        [&] { return trace_of("purity", invocation, inputs.traces()); });
    return std::all_of(result.samples.begin(), result.samples.end(), purity::is_in_order)
               ? kDone
               : kNeedsAttention;
}

} // namespace cospot

#include "evidence/input_features.h"
#include "evidence/library_evidence.h"
#include "identification/loaded_features.h"
#include "identification/proof_corrections.h"
#include "library/compounds.h"
#include "library/names.h"
#include "library/responses.h"
#include "options/command.h"
#include "options/compound_options.h"
#include "options/open_library.h"
#include "options/options.h"
#include "options/table_options.h"
#include "purity/judge.h"
#include "purity/named.h"
#include "purity/purity_document.h"
#include "purity/purity_json.h"
#include "purity/purity_options.h"
#include "purity/solvent_limits.h"
#include "purity/trend.h"
#include "readers/input_file.h"
#include "report/presentation.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

namespace cospot {

namespace {

using TextList = std::vector<std::string>;

/// Candidates that are looked at for each feature.
constexpr std::size_t kCandidates = 50;

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

/// Whose residual solvents are judged the library need not hold: it is mostly no compound that a
/// gas chromatograph shows.
library::Compound declared_compound(const CommandOptions &options, library::Database &database) {
    const auto &name = options.get<std::string>("declared");
    if (options.has("residual-solvents") && library::find_by_name(database, name).empty()) {
        library::Compound compound;
        compound.name = name;
        return compound;
    }
    return compound_in_use(database, name, at_option("declared"));
}

purity::Declaration declaration_of(const CommandOptions &options, const purity::Rules &rules,
                                   library::Database &database, std::istream &standard_input) {
    if (!options.has("declared")) {
        throw bad_usage("no --declared", "--declared NAME");
    }
    const library::Compound declared = declared_compound(options, database);
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
        const library::System system = system_of(evidence, set, name);
        if (!asked_.asks_solvents) {
            check_declared(evidence, system);
        }
        const purity::Question question = question_of(system);
        IdentificationOptions how;
        how.top = kCandidates;
        how.prior.feature = purity::prior_of(prior_declaration(), evidence, asked_.prior_unlisted);
        how.prior.learn_unlisted = asked_.learns_unlisted;
        apply_proofs(how, set.features, evidence, database_, set.notes);
        result.has_left_out |= set.needs_attention;
        purity::JudgedFile file{.name = name, .lead = std::move(set.lead)};
        const std::vector<std::vector<const Feature *>> samples = samples_of(set, file, result);
        file.notes = set.notes;
        for (const std::vector<const Feature *> &together : samples) {
            std::vector<Feature> features;
            features.reserve(together.size());
            for (const Feature *feature : together) {
                features.push_back(*feature);
            }
            result.samples.push_back(
                purity::judge({name, system.name, features, set.scales[features.front().run], blank,
                               set.standards},
                              question, evidence, database_, how));
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
        if (!asked_.asks_solvents) {
            settings.reference.declared = declaration_.declared;
        }
        InputFile file(name, standard_input_);
        return read_features(database_, file.read_all(), file.name(), settings, standard_input_);
    }

    /// The samples that are judged. Says what the table names, and which runs are left out since
    /// they hold nothing but standards.
    [[nodiscard]] std::vector<std::vector<const Feature *>>
    samples_of(FeatureSet &set, purity::JudgedFile &file, purity::PurityResult &result) const {
        auto samples = lanes_of(all_of(set.features));
        if (asked_.sample) {
            std::erase_if(samples, [&](const auto &sample) {
                return sample.front()->sample != *asked_.sample;
            });
        }
        const std::vector<bool> of_standards = asked_.asks_solvents
                                                   ? purity::are_of_standards(samples)
                                                   : std::vector<bool>(samples.size());
        std::vector<std::vector<const Feature *>> judged;
        for (std::size_t i = 0; i < samples.size(); ++i) {
            if (!of_standards[i]) {
                judged.push_back(std::move(samples[i]));
                continue;
            }
            result.has_left_out = true;
            file.lead.push_back(fmt::format(
                "{} is left out, not judged: all its peaks are named and none has an amount, as in "
                "a run of standards. If it is a sample, give its ppm.",
                samples[i].front()->sample));
        }
        if (std::string words = purity::names_words(judged); !words.empty()) {
            file.lead.push_back(std::move(words));
        }
        return judged;
    }

    /// Of the file, be it that none of its peaks got a value to compare.
    [[nodiscard]] library::System system_of(const LibraryEvidence &evidence, const FeatureSet &set,
                                            const std::string &file) const {
        if (!evidence.systems.empty()) {
            return evidence.systems.front().system;
        }
        const Feature &first = set.features.front();
        if (!asked_.asks_solvents) {
            throw InputError({file, 0, ""},
                             "no peak that can be compared" +
                                 (first.warnings.empty() ? ""
                                                         : fmt::format(" (peak {}: {})", first.name,
                                                                       first.warnings.front())),
                             fmt::format("a peak within the ladder, to tell which one is {}; or "
                                         "--extrapolate, for indices outside it",
                                         declaration_.declared));
        }
        return system_of_settings(database_, asked_.settings, InputKind::chromatogram);
    }

    /// Among residual solvents the declared compound is no likelier than any other.
    [[nodiscard]] purity::Declaration prior_declaration() const {
        purity::Declaration declaration = declaration_;
        if (asked_.asks_solvents) {
            declaration.declared_id = {};
        }
        return declaration;
    }

    [[nodiscard]] purity::SolventQuestion solvent_question() const {
        purity::SolventQuestion question{{}, asked_.limits.dose_mg, asked_.detection_ppm};
        for (const library::CompoundId id : declaration_.expected_ids) {
            if (const auto compound = library::find_compound(database_, id)) {
                question.sought.push_back({compound->name, compound->inchikey});
            }
        }
        return question;
    }

    /// Response factors by the names of compounds, where the library holds one of each name.
    [[nodiscard]] purity::RelativeResponse relative_response(library::SystemId system) const {
        return [this, system](const std::string &name, const std::string &relative_to) {
            const auto compounds = library::find_by_name(database_, name);
            const auto references = library::find_by_name(database_, relative_to);
            return compounds.size() == 1 && references.size() == 1
                       ? library::response_factor(database_, system, compounds.front().id,
                                                  references.front().id)
                       : std::nullopt;
        };
    }

    /// The declared compound must be comparable on the system of the sample.
    void check_declared(const LibraryEvidence &evidence, const library::System &system) const {
        if (!index_of_compound(evidence, declaration_.declared_id)) {
            throw bad_option(
                "declared",
                fmt::format("{}, of which the library holds no value to compare with on {}",
                            in_quotes(declaration_.declared), in_quotes(system.name)),
                "a compound that was measured there: run its standard and learn it "
                "(where it is the reference itself, its RRT or r of 1); with a "
                "hold-up time k is compared, without it tR");
        }
    }

    purity::Question question_of(const library::System &system) {
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
        if (asked_.asks_solvents) {
            question.solvents = solvent_question();
            question.relative_response = relative_response(system.id);
        }
        return question;
    }

    const PurityOptions &asked_;
    purity::Declaration declaration_;
    library::Database &database_;
    std::istream &standard_input_;
};

std::string limits_note(const PurityOptions &asked) {
    if (asked.asks_solvents) {
        return fmt::format("Limits: {}", purity::kSolventRules);
    }
    const purity::Rules &rules = asked.limits.rules;
    if (rules.name.empty()) {
        return "No limits were given: --dose-mg-per-day or --rules.";
    }
    return fmt::format(
        "Limits: {}{}{}{}", rules.name, rules.source.empty() ? "" : ", ", rules.source,
        asked.limits.dose_mg ? fmt::format("; highest dose {:g} mg a day", *asked.limits.dose_mg)
                             : "");
}

} // namespace

int run_purity(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] purity FILE... --declared NAME [options]",
        "Judges samples against what they are declared to be: which peak or spot it is and how\n"
        "sure that is, what else is there, and by which rule that is in order. Exit code 1 unless\n"
        "every rule is met. Several files are followed over time. A peak that the column\n"
        "compound names is the sample's, judged by that name, unless its role says standard.");
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
            : TextList{},
        invocation.in);
    const PurityOptions asked = purity_options(options, invocation, inputs.standard_input());
    library::Database database = open_library(invocation, library::Access::read);
    purity::Declaration declaration =
        declaration_of(options, asked.limits.rules, database, inputs.standard_input());
    purity::PurityResult result{.declared = declaration.declared, .limits = limits_note(asked)};
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
        {result.limits}, [&] { return purity_document(result, asked.has_sheets); },
        [&] { return trace_of("purity", invocation, inputs.traces()); });
    return !result.has_left_out &&
                   std::all_of(result.samples.begin(), result.samples.end(), purity::is_in_order)
               ? kDone
               : kNeedsAttention;
}

} // namespace cospot

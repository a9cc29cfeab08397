#include "advise/advise_document.h"
#include "advise/advise_json.h"
#include "advise/systems_document.h"
#include "document/progress.h"
#include "evidence/input_features.h"
#include "identification/loaded_features.h"
#include "identification/proof_corrections.h"
#include "library/selection.h"
#include "options/candidate_options.h"
#include "options/command.h"
#include "options/compound_options.h"
#include "options/input_options.h"
#include "options/open_library.h"
#include "options/options.h"
#include "options/table_options.h"
#include "readers/input_file.h"
#include "report/presentation.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;

using Texts = std::vector<std::string>;

constexpr std::size_t kMostCompounds = 1000;

/// What the user asked for.
struct AdviseOptions {
    std::optional<std::string> file; ///< else compounds are to be told apart
    InputSettings input;
    std::optional<std::string> effort; ///< file of efforts
    std::optional<std::string> also;   ///< file of structures
    double prior_unlisted = 0.0;
    bool learns_unlisted = true; ///< no --prior-unlisted was given
    std::size_t top = 0;
};

void add_advise_options(CommandOptions &options) {
    options.add()("compounds", po::value<Texts>()->composing(),
                  "instead of a file: compounds to tell apart, divided by ',' or ';', repeated, or "
                  "in a file with one name a line")(
        "all", "instead of a file: all compounds of the library")(
        "effort", po::value<std::string>(),
        "table measurement,effort: what a system, technique, standard, stain or mass costs you, "
        "where a plate is 1")("top", po::value<int>()->default_value(5),
                              "most measurements listed for a feature");
    add_candidate_options(options);
    add_input_options(options);
    add_partial_option(options);
    add_report_option(options);
    options.positional("file", 1, "spots or peaks whose identity is open");
}

AdviseOptions read_advise_options(const CommandOptions &options, const Invocation &invocation) {
    const int ways = (options.has("file") ? 1 : 0) + (options.has("compounds") ? 1 : 0) +
                     (options.has("all") ? 1 : 0);
    if (ways != 1) {
        throw bad_usage(ways == 0 ? "no file" : "more than one of these",
                        "one of: a FILE, --compounds or --all");
    }
    AdviseOptions asked{.file = options.has("file") ? std::optional(options.texts("file").front())
                                                    : std::nullopt,
                        .input = input_settings(options, invocation),
                        .effort = options.text("effort"),
                        .also = also_file(options),
                        .prior_unlisted = prior_unlisted(options),
                        .learns_unlisted = !options.is_given("prior-unlisted"),
                        .top = top_of(options)};
    asked.input.form.is_partial = options.has("partial");
    asked.input.may_stand_alone = false; // advice is about the library's systems
    return asked;
}

Efforts efforts_of(const AdviseOptions &asked, std::istream &standard_input) {
    Efforts efforts = usual_efforts();
    if (asked.effort) {
        InputFile file(*asked.effort, standard_input);
        read_efforts(file.stream(), file.name(), asked.input.form.aliases, efforts);
    }
    return efforts;
}

/// What is said about the features of a file.
struct AdvisedFile {
    std::vector<SampleAdvice> samples;
    std::vector<std::string> notes;
    bool needs_attention = false;
};

void present(const SampleAdvice &sample, Presentation &presentation) {
    for (const FeatureAdvice &feature : sample.features) {
        presentation.add(feature_advice_json(feature));
    }
    if (sample.features.size() > 1) {
        presentation.add(sample_advice_json(sample));
    }
}

AdvisedFile advise_on_file(const AdviseOptions &asked, std::istream &standard_input,
                           library::Database &database, std::ostream &messages,
                           Presentation &presentation) {
    InputFile file(*asked.file, standard_input);
    auto [set, evidence] = load_features(
        database,
        read_features(database, file.read_all(), file.name(), asked.input, standard_input),
        Extent::all, asked.also, standard_input);
    IdentificationOptions how;
    how.prior.feature.unlisted = asked.prior_unlisted;
    how.prior.learn_unlisted = asked.learns_unlisted;
    how.top = kMostListed;
    apply_proofs(how, set.features, evidence, database, set.notes);
    MeasuredSystems systems(database);
    KnownCompounds compounds(evidence, database);
    AdviceSources sources{database, evidence, systems, efforts_of(asked, standard_input),
                          sampled_traits(database, evidence)};
    AdvisedFile advised;
    advised.needs_attention = needs_attention(set, evidence);
    advised.notes.insert(advised.notes.end(), set.notes.begin(), set.notes.end());
    Progress progress(messages, "features", set.features.size());
    for (const auto &run : runs_of(set.features)) {
        const RunIdentification identified = identify_run(run, evidence, compounds, how);
        advised.needs_attention |= identified.needs_attention;
        advised.notes.insert(advised.notes.end(), identified.notes.begin(), identified.notes.end());
        for (const SampleIdentification &sample : identified.samples) {
            advised.samples.push_back(advise_sample(sample, sources, asked.top));
            progress.clear();
            present(advised.samples.back(), presentation);
            progress.advance(sample.asked.size());
        }
    }
    return advised;
}

std::vector<library::CompoundId> compounds_of(const CommandOptions &options,
                                              library::Database &database,
                                              std::istream &standard_input) {
    std::vector<library::CompoundId> ids;
    if (options.has("all")) {
        library::for_each_compound(database, {},
                                   [&](const library::Compound &compound, const library::Counts &) {
                                       if (!compound.retired) {
                                           ids.push_back(compound.id);
                                       }
                                   });
    } else {
        for (const library::Compound &compound :
             named_compounds(options, "compounds", database, standard_input)) {
            ids.push_back(compound.id);
        }
    }
    std::sort(ids.begin(), ids.end());
    ids.erase(std::unique(ids.begin(), ids.end()), ids.end());
    if (ids.size() < 2 || ids.size() > kMostCompounds) {
        throw bad_usage(fmt::format("{} compounds", ids.size()),
                        fmt::format("2 to {} compounds to tell apart", kMostCompounds));
    }
    return ids;
}

} // namespace

int run_advise(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] advise FILE [options]",
        "Says which further measurement would tell most about features whose identity is open:\n"
        "another system of the library, a run beside a standard, a reagent, a molar mass. With\n"
        "--compounds or --all: the fewest systems that tell compounds apart.");
    add_advise_options(options);
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    const AdviseOptions asked = read_advise_options(options, invocation);
    Presentation presentation(invocation, options);
    TracedInputs inputs(presentation.has_report()
                            ? input_names(options, {"ladder", "effort", "also"}, "compounds")
                            : Texts{},
                        invocation.in);
    library::Database database = open_library(invocation, library::Access::read);
    const auto trace = [&] { return trace_of("advise", invocation, inputs.traces()); };
    if (asked.file) {
        const AdvisedFile advised =
            advise_on_file(asked, inputs.standard_input(), database, invocation.err, presentation);
        presentation.finish(
            advised.notes, [&] { return advise_document(advised.samples); }, trace);
        return advised.needs_attention ? kNeedsAttention : kDone;
    }
    MeasuredSystems systems(database);
    const SystemAdvice advice =
        advise_systems(compounds_of(options, database, inputs.standard_input()), database, systems);
    presentation.add(system_advice_json(advice));
    presentation.finish(
        {}, [&] { return systems_document(advice); }, trace);
    return kDone;
}

} // namespace cospot

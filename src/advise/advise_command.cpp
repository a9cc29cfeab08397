#include "advise/feature_advice.h"
#include "advise/system_advice.h"
#include "options/candidate_options.h"
#include "options/command.h"
#include "options/compound_options.h"
#include "document/caution.h"
#include "document/style.h"
#include "evidence/input_features.h"
#include "evidence/library_evidence.h"
#include "identification/identification.h"
#include "identification/loaded_features.h"
#include "identification/proof_corrections.h"
#include "options/input_options.h"
#include "library/overview.h"
#include "library/selection.h"
#include "options/open_library.h"
#include "options/options.h"
#include "advise/advise_json.h"
#include "advise/advise_text.h"
#include "document/progress.h"
#include "readers/input_file.h"
#include "advise/advise_report.h"
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

using Texts = std::vector<std::string>;

constexpr std::size_t kMostCompounds = 1000;

void add_advise_options(CommandOptions &options) {
    options.add()("compounds", po::value<Texts>()->composing(),
                  "instead of a file: compounds to tell apart, repeated or in a file with one name "
                  "a line")("all", "instead of a file: all compounds of the library")(
        "effort", po::value<std::string>(),
        "table measurement,effort: what a system, technique, standard, stain or mass costs you, "
        "where a plate is 1")("top", po::value<int>()->default_value(5),
                              "most measurements listed for a feature");
    add_candidate_options(options);
    add_input_options(options);
    add_report_option(options);
    options.positional("file", 1, "spots or peaks whose identity is open");
}

Efforts efforts_of(const CommandOptions &options, std::istream &standard_input) {
    Efforts efforts = usual_efforts();
    if (options.has("effort")) {
        InputFile file(options.get<std::string>("effort"), standard_input);
        read_efforts(file.stream(), file.name(), efforts);
    }
    return efforts;
}

/// What holds for advice on features, in the text and in reports.
const Texts &feature_notes() {
    static const Texts notes{
        "Effort is relative, a plate being 1 (--effort sets your own); bits are what the library "
        "expects, not a promise.",
        "Lamps harm eyes and skin, stains and solvents are corrosive, toxic or flammable: work in "
        "the hood, by your laboratory's own rules."};
    return notes;
}

/// What holds for advice on systems.
const Texts &system_notes() {
    static const Texts notes{
        "Told apart: means two combined spreads apart on a system that holds both. Discriminating "
        "power: the chance that two of them, drawn at random, are told apart; list length: how "
        "many remain on average when one of them is the unknown. Both are what the library "
        "expects, not a promise."};
    return notes;
}

void print_notes(std::ostream &out, const Texts &notes) {
    for (const std::string &note : notes) {
        out << wrapped(note, 0);
    }
    out << wrapped(kRetentionIsNoProof, 0);
}

/// Where the advice goes: printed at once, and kept for a report.
class Output {
public:
    explicit Output(const Invocation &invocation) : invocation_(&invocation) {}

    void add(Json object, const std::string &text) {
        invocation_->out << (invocation_->json ? json_line(object) : text) << '\n';
        objects_.push_back(std::move(object));
    }

    [[nodiscard]] const Json &objects() const noexcept { return objects_; }

private:
    const Invocation *invocation_;
    Json objects_ = Json::array();
};

/// Returns the exit code.
int advise_on_file(const CommandOptions &options, std::istream &standard_input,
                   library::Database &database, const Style &style, std::ostream &err,
                   Output &output) {
    const std::size_t top = top_of(options);
    InputFile file(options.get<Texts>("file").front(), standard_input);
    InputSettings settings = input_settings(options);
    settings.may_stand_alone = false; // advice is about the library's systems
    auto [set, evidence] = load_features(
        database, read_features(database, file.read_all(), file.name(), settings, standard_input),
        Extent::all, also_file(options), standard_input);
    IdentificationOptions how;
    how.prior.feature.unlisted = prior_unlisted(options);
    how.prior.learn_unlisted = !options.is_given("prior-unlisted");
    how.top = kMostListed;
    apply_proofs(how, set.features, evidence, database, set.notes);
    MeasuredSystems systems(database);
    KnownCompounds compounds(evidence, database);
    AdviceSources sources{database, evidence, systems, efforts_of(options, standard_input),
                          sampled_traits(database, evidence)};
    Progress progress(err, "features", set.features.size());
    bool attention = needs_attention(set, evidence);
    for (const auto &run : runs_of(set.features)) {
        const RunIdentification identified = identify_run(run, evidence, compounds, how);
        attention |= identified.needs_attention;
        for (const std::string &note : identified.notes) {
            progress.clear();
            err << wrapped(printable(note), 0);
        }
        for (const SampleIdentification &sample : identified.samples) {
            std::vector<FeatureAdvice> advice;
            for (std::size_t i = 0; i < sample.asked.size(); ++i) {
                const Feature &feature = *sample.asked[i];
                advice.push_back(advise(feature, sample.features[i], sources));
                progress.clear();
                output.add(advice_json(feature, advice.back(), top),
                           advice_text(feature, advice.back(), top, style));
                progress.advance(1);
            }
            progress.clear();
            if (sample.asked.size() > 1) {
                const auto together = for_whole_sample(advice);
                const std::string &name = sample.asked.front()->sample;
                output.add(sample_advice_json(name, together, top),
                           sample_advice_text(name, together, top, style));
            }
        }
    }
    return attention ? kNeedsAttention : kDone;
}

std::vector<std::int64_t> compounds_of(const CommandOptions &options, library::Database &database,
                                       std::istream &standard_input) {
    std::vector<std::int64_t> ids;
    if (options.has("all")) {
        library::for_each_compound(database, {},
                                   [&](const library::Compound &compound, const library::Counts &) {
                                       ids.push_back(compound.id);
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
        throw InputError({"command line", 0, ""}, fmt::format("{} compounds", ids.size()),
                         fmt::format("2 to {} compounds to tell apart", kMostCompounds));
    }
    return ids;
}

void advise_on_compounds(const CommandOptions &options, std::istream &standard_input,
                         library::Database &database, const Style &style, Output &output) {
    MeasuredSystems systems(database);
    const SystemAdvice advice =
        advise_systems(compounds_of(options, database, standard_input), database, systems);
    output.add(system_advice_json(advice), system_advice_text(advice, style));
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
    const int ways = (options.has("file") ? 1 : 0) + (options.has("compounds") ? 1 : 0) +
                     (options.has("all") ? 1 : 0);
    if (ways != 1) {
        throw InputError({"command line", 0, ""}, ways == 0 ? "no file" : "more than one of these",
                         "one of: a FILE, --compounds or --all");
    }
    const auto file_of_report = report_file(options);
    TracedInputs inputs(
        file_of_report ? input_names(options, {"ladder", "effort", "also"}, "compounds") : Texts{},
        invocation.in);
    library::Database database = open_library(invocation, library::Access::read);
    const Style style = style_for(invocation.out);
    const Texts &notes = options.has("file") ? feature_notes() : system_notes();
    Output output(invocation);
    int code = kDone;
    if (options.has("file")) {
        code = advise_on_file(options, inputs.standard_input(), database, style, invocation.err,
                              output);
    } else {
        advise_on_compounds(options, inputs.standard_input(), database, style, output);
    }
    if (!invocation.json) {
        print_notes(invocation.out, notes);
    }
    if (file_of_report) {
        write_report(*file_of_report,
                     {trace_of("advise", invocation, inputs.traces()), notes, output.objects()},
                     advise_report());
    }
    return code;
}

} // namespace cospot

#include "distil/distil_document.h"
#include "distil/distil_json.h"
#include "evidence/index_law.h"
#include "integration/integration.h"
#include "integration/ladder_trace.h"
#include "library/names.h"
#include "options/command.h"
#include "options/open_library.h"
#include "options/options.h"
#include "options/table_options.h"
#include "options/trace_options.h"
#include "quantities/stationary_phase.h"
#include "readers/chromatogram_table.h"
#include "readers/input_file.h"
#include "report/presentation.h"
#include "shared/text.h"

#include <optional>
#include <string>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;

/// What the user asked for.
struct DistilOptions {
    std::optional<std::string> file;   ///< a chromatogram
    GivenColumns columns;              ///< what the tables call theirs
    std::optional<std::string> ladder; ///< given with it
    std::optional<double> solvent_until_min;
    std::optional<std::string> system;
    IntegrationSettings integration{}; ///< of traces
};

quantities::BoilingScale read_scale(const DistilOptions &asked, std::istream &standard_input) {
    InputFile file(*asked.ladder, standard_input);
    const quantities::Ladder ladder =
        ladder_of_file(file, quantities::IndexScale::n_alkane, quantities::LadderGaps::interpolate,
                       asked.columns.of_ladder, asked.integration)
            .ladder;
    try {
        return quantities::boiling_scale(ladder);
    } catch (const InputError &error) {
        throw InputError({file.name(), 0, "carbon"}, error.found(), error.expected());
    }
}

std::vector<Peak> peaks_in(InputFile &file, const DistilOptions &asked) {
    if (holds_trace(file.stream())) {
        return peaks_of(integrate(file.stream(), file.name(), asked.integration),
                        asked.integration);
    }
    return read_chromatogram(file.stream(), file.name(), {.aliases = asked.columns.of_tables});
}

distillation::DistilledSample read_sample(const DistilOptions &asked,
                                          std::istream &standard_input) {
    const quantities::BoilingScale scale = read_scale(asked, standard_input);
    InputFile file(*asked.file, standard_input);
    const std::vector<Peak> peaks = peaks_in(file, asked);
    if (by_run(peaks).size() > 1) {
        throw InputError({file.name(), 0, "run"}, "several runs", "the peaks of one run");
    }
    return distillation::distil(file.name(), peaks, scale, asked.solvent_until_min);
}

/// A run without programme spreads the alkanes by the logarithm of time: no line fits between them.
void check_programmed(const library::System &system) {
    if (index_law_of(system).law == quantities::IndexLaw::logarithmic) {
        throw bad_option("system", in_quotes(system.name) + ", which is isothermal",
                         "a temperature-programmed system, for a chromatogram");
    }
}

/// What --system is about.
distillation::VolatilityOrder order_on(const DistilOptions &asked, const Invocation &invocation) {
    library::Database database = open_library(invocation, library::Access::read);
    const library::System system = system_named(database, *asked.system, at_option("system"));
    if (asked.file) {
        check_programmed(system);
    }
    return distillation::volatility_order(database, system);
}

void add_distil_options(CommandOptions &options) {
    options.add()("ladder", po::value<std::string>(), "the n-alkanes: carbon,tR or standard,tR")(
        "solvent-until", po::value<double>(), "peaks up to this time (min) are solvent, left out")(
        "system", po::value<std::string>(),
        "of the library: expected order by boiling point against the observed order");
    add_map_option(options);
    add_ladder_map_option(options);
    add_trace_options(options);
    add_report_option(options);
    options.positional("file", 1, "a chromatogram");
}

DistilOptions read_distil_options(const CommandOptions &options, const Invocation &invocation) {
    if (!options.has("file") && !options.has("system")) {
        throw bad_usage("neither FILE nor --system",
                        "a FILE with peaks and its --ladder, or --system NAME of the library");
    }
    if (!options.has("file") && (options.has("ladder") || options.has("solvent-until"))) {
        throw bad_usage("no FILE", "a FILE with peaks");
    }
    DistilOptions asked{.file = {},
                        .columns = columns_of(options, invocation),
                        .ladder = options.text("ladder"),
                        .solvent_until_min = options.positive("solvent-until"),
                        .system = options.text("system"),
                        .integration = integration_settings(options)};
    if (options.has("file")) {
        asked.file = options.texts("file").front();
        if (!asked.ladder) {
            throw bad_usage("no --ladder",
                            "--ladder FILE: the n-alkanes of the same programmed run (carbon,tR)");
        }
    }
    return asked;
}

} // namespace

int run_distil(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] distil [FILE --ladder FILE] [options]",
        "Simulated distillation: puts the peaks of a temperature-programmed gas\n"
        "chromatogram on the boiling points of the n-alkanes run with it, and adds up\n"
        "their areas. FILE has the columns peak,tR,area (start,end are optional, and\n"
        "better). With --system, compares what the library holds there with boiling points\n"
        "from structure. Exit code 1 where area lies outside the ladder, or the phase is\n"
        "polar.");
    add_distil_options(options);
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    Presentation presentation(invocation, options);
    const DistilOptions asked = read_distil_options(options, invocation);
    TracedInputs inputs(presentation.has_report() ? input_names(options, {"ladder"})
                                                  : std::vector<std::string>{},
                        invocation.in);
    DistilResult result;
    if (asked.system) {
        result.order = order_on(asked, invocation);
    }
    if (asked.file) {
        result.sample = read_sample(asked, inputs.standard_input());
        presentation.add(distilled_sample_json(*result.sample));
    }
    if (result.order) {
        presentation.add(volatility_order_json(*result.order));
    }
    const LibraryUse library = result.order ? LibraryUse::opened : LibraryUse::none;
    presentation.finish(
        {}, [&] { return distil_document(result); },
        [&] { return trace_of("distil", invocation, inputs.traces(), library); });
    return result.needs_attention() ? kNeedsAttention : kDone;
}

} // namespace cospot

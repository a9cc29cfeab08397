#include "options/command.h"
#include "distil/distilled_sample.h"
#include "distil/volatility_order.h"
#include "document/caution.h"
#include "document/style.h"
#include "evidence/index_law.h"
#include "library/names.h"
#include "options/open_library.h"
#include "options/options.h"
#include "distil/distil_json.h"
#include "distil/distil_text.h"
#include "quantities/stationary_phase.h"
#include "readers/chromatogram_table.h"
#include "readers/input_file.h"
#include "readers/ladder_table.h"
#include "distil/distil_report.h"
#include "shared/text.h"

#include <optional>
#include <ostream>
#include <string>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;

using Texts = std::vector<std::string>;

quantities::BoilingScale read_scale(const std::string &name, std::istream &standard_input) {
    InputFile file(name, standard_input);
    const quantities::Ladder ladder =
        read_ladder(file.stream(), file.name(), quantities::IndexScale::n_alkane,
                    quantities::LadderGaps::interpolate);
    try {
        return quantities::boiling_scale(ladder);
    } catch (const InputError &error) {
        throw InputError({file.name(), 0, "carbon"}, error.found(), error.expected());
    }
}

distillation::DistilledSample read_sample(const CommandOptions &options,
                                          std::istream &standard_input) {
    if (!options.has("ladder")) {
        throw InputError({"command line", 0, ""}, "no --ladder",
                         "--ladder FILE: the n-alkanes of the same programmed run (carbon,tR)");
    }
    const quantities::BoilingScale scale =
        read_scale(options.get<std::string>("ladder"), standard_input);
    InputFile file(options.get<Texts>("file").front(), standard_input);
    const std::vector<Peak> peaks = read_chromatogram(file.stream(), file.name());
    return distillation::distil(file.name(), peaks, scale, options.positive("solvent-until"));
}

/// A run without programme spreads the alkanes by the logarithm of time: no line fits between them.
void check_programmed(const library::System &system) {
    if (index_law_of(system).law == quantities::IndexLaw::logarithmic) {
        throw InputError(at_option("system"), in_quotes(system.name) + ", which is isothermal",
                         "a temperature-programmed system, for a chromatogram");
    }
}

void print_text(std::ostream &out, const std::optional<distillation::DistilledSample> &sample,
                const std::optional<distillation::VolatilityOrder> &order) {
    const Style style = style_for(out);
    out << (sample ? distilled_sample_text(*sample, style) : "") << (sample && order ? "\n" : "")
        << (order ? volatility_order_text(*order, style) : "") << '\n'
        << wrapped(kGasCaution, 0) << wrapped(kRetentionIsNoProof, 0);
}

Json objects_of(const std::optional<distillation::DistilledSample> &sample,
                const std::optional<distillation::VolatilityOrder> &order) {
    Json objects = Json::array();
    if (sample) {
        objects.push_back(distilled_sample_json(*sample));
    }
    if (order) {
        objects.push_back(volatility_order_json(*order));
    }
    return objects;
}

/// What --system is about; nothing without it.
std::optional<distillation::VolatilityOrder> asked_order(const CommandOptions &options,
                                                         const Invocation &invocation) {
    if (!options.has("system")) {
        return std::nullopt;
    }
    library::Database database = open_library(invocation, library::Access::read);
    const library::System system =
        system_named(database, options.get<std::string>("system"), at_option("system"));
    if (options.has("file")) {
        check_programmed(system);
    }
    return distillation::volatility_order(database, system);
}

void add_distil_options(CommandOptions &options) {
    options.add()("ladder", po::value<std::string>(), "the n-alkanes: carbon,tR or standard,tR")(
        "solvent-until", po::value<double>(), "peaks up to this time (min) are solvent, left out")(
        "system", po::value<std::string>(),
        "of the library: expected order by boiling point against the observed order");
    add_report_option(options);
    options.positional("file", 1, "a chromatogram");
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
    if (!options.has("file") && !options.has("system")) {
        throw InputError({"command line", 0, ""}, "neither FILE nor --system",
                         "a FILE with peaks and its --ladder, or --system NAME of the library");
    }
    if (!options.has("file") && (options.has("ladder") || options.has("solvent-until"))) {
        throw InputError({"command line", 0, ""}, "no FILE", "a FILE with peaks");
    }
    const auto file_of_report = report_file(options);
    TracedInputs inputs(file_of_report ? input_names(options, {"ladder"}) : Texts{}, invocation.in);
    const auto order = asked_order(options, invocation);
    std::optional<distillation::DistilledSample> sample;
    if (options.has("file")) {
        sample = read_sample(options, inputs.standard_input());
    }
    const Json objects = objects_of(sample, order);
    if (invocation.json) {
        invocation.out << json_lines(objects);
    } else {
        print_text(invocation.out, sample, order);
    }
    if (file_of_report) {
        const LibraryUse library = order ? LibraryUse::opened : LibraryUse::none;
        write_report(*file_of_report,
                     {trace_of("distil", invocation, inputs.traces(), library), {}, objects},
                     distil_report());
    }
    const bool is_off_scale = sample && sample->before_per_cent + sample->behind_per_cent > 0.0;
    const bool is_polar = order && order->phase == quantities::GasPhase::polar;
    return is_off_scale || is_polar ? kNeedsAttention : kDone;
}

} // namespace cospot

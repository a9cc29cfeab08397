#include "options/command.h"
#include "options/options.h"
#include "options/photo_options.h"
#include "options/table_options.h"
#include "pool/judged_fractions.h"
#include "pool/pool_document.h"
#include "pool/pool_json.h"
#include "quantities/plate.h"
#include "report/presentation.h"
#include "shared/number.h"
#include "shared/text.h"

#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;

constexpr double kLargestOption = 1e9; // a tonne in mg, a thousand cubic metres in mL

void add_pool_options(CommandOptions &options) {
    options.add()(
        "tolerance", po::value<double>(),
        "Rf by which spots of one component may differ between lanes (default: three times "
        "the scatter that the fractions show, or what reading explains if that is more)")(
        "reading-error-mm",
        po::value<double>()->default_value(quantities::kRulerReadingError_mm, "0.5"),
        "standard uncertainty of a distance")(
        "order", po::value<std::string>()->default_value("rf"),
        "rf: the highest Rf leaves first (plates and column of one kind of phase); open: nothing "
        "is expected")("system", po::value<std::string>(),
                       "system of the plates: the library says what each component may be")(
        "target", po::value<std::string>(),
        "what is wanted: the letter of a component, its Rf, or with --system a compound")(
        "loaded-mg", po::value<double>(), "what was loaded onto the column, for the balance")(
        "fraction-ml", po::value<double>(), "size of a fraction, for a trace by volume")(
        "baseline", po::value<double>(),
        "signal of a trace at or below which there is nothing (default: 2 % of the largest)");
    add_photo_options(options);
    add_map_option(options);
    add_report_option(options);
    options.positional("file", 1, "fractions");
}

fractions::ElutionOrder order_of(const CommandOptions &options) {
    const std::string &order = options.get<std::string>("order");
    if (order == "rf") {
        return fractions::ElutionOrder::by_rf;
    }
    if (order != "open") {
        throw bad_option("order", in_quotes(order), "rf or open");
    }
    return fractions::ElutionOrder::open;
}

PoolOptions pool_options_of(const CommandOptions &options, const Invocation &invocation) {
    if (!options.has("file")) {
        throw bad_usage("no file", "a FILE with fractions, or -");
    }
    PoolOptions pool;
    pool.file = options.texts("file").front();
    pool.aliases = aliases_of(options, invocation);
    pool.photo = photo_settings(options);
    pool.tolerance = options.positive("tolerance");
    if (pool.tolerance && *pool.tolerance >= 1.0) {
        throw bad_option("tolerance", exact_text(*pool.tolerance), "a difference of Rf below 1");
    }
    pool.reading_error_mm = options.positive("reading-error-mm").value();
    pool.order = order_of(options);
    pool.system = options.text("system");
    pool.target = options.text("target");
    pool.loaded_mg = options.positive("loaded-mg", kLargestOption);
    pool.fraction_ml = options.positive("fraction-ml", kLargestOption);
    if (options.has("baseline")) {
        pool.baseline = options.get<double>("baseline");
        if (!std::isfinite(*pool.baseline)) {
            throw bad_option("baseline", exact_text(*pool.baseline), "a signal");
        }
    }
    return pool;
}

} // namespace

int run_pool(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] pool FILE [options]",
        "Says which fractions of a column hold which component, which to combine and\n"
        "what to keep apart. FILE (or - for standard input) is one of\n"
        "  plates:  fraction,Rf or fraction,distance_mm,front_mm; a row a spot, no value\n"
        "           where nothing was seen; optional plate, lane, intensity, mass_mg,\n"
        "           volume_mL (both of the fraction); role standard and label for a lane\n"
        "           without a fraction, by which plates are laid over each other\n"
        "  trace:   fraction,signal or volume_mL,signal (needs --fraction-ml)\n"
        "Exit code 1 if something should be looked at before fractions are combined.");
    add_pool_options(options);
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    const PoolOptions asked = pool_options_of(options, invocation);
    Presentation presentation(invocation, options);
    TracedInputs inputs(presentation.has_report() ? input_names(options, {})
                                                  : std::vector<std::string>{},
                        invocation.in);
    const PoolResult result = judged_fractions(asked, invocation, inputs.standard_input());
    if (presentation.needs_json()) {
        for (Json &object : pool_json(result)) {
            presentation.add(std::move(object));
        }
    }
    const LibraryUse library = asked.system ? LibraryUse::opened : LibraryUse::none;
    presentation.finish(
        {}, [&] { return pool_document(result); },
        [&] { return trace_of("pool", invocation, inputs.traces(), library); });
    return needs_attention(result) ? kNeedsAttention : kDone;
}

} // namespace cospot

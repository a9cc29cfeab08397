#include "options/command.h"
#include "document/style.h"
#include "fractions/components.h"
#include "fractions/plates.h"
#include "fractions/spot_pairs.h"
#include "fractions/trace.h"
#include "identification/component_names.h"
#include "options/open_library.h"
#include "options/options.h"
#include "pool/pool_json.h"
#include "pool/pool_result.h"
#include "pool/pool_text.h"
#include "quantities/plate.h"
#include "readers/fraction_table.h"
#include "readers/input_file.h"
#include "pool/pool_report.h"
#include "shared/number.h"
#include "shared/robust.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <ostream>
#include <string>
#include <utility>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;

constexpr double kUsualFront_mm = 70.0;      // common practice, no source
constexpr double kLargestOption = 1e9;       // a tonne in mg, a thousand cubic metres in mL
constexpr std::size_t kMostComponents = 500; // more are no column, and every pair is compared

InputError wrong_option(const char *name, double value, const std::string &expected) {
    return {at_option(name), exact_text(value), expected};
}

void add_pool_options(CommandOptions &options) {
    options.add()("tolerance", po::value<double>(),
                  "Rf by which spots of one component may differ between lanes (default: three "
                  "standard uncertainties of the difference of two readings)")(
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
    add_report_option(options);
    options.positional("file", 1, "fractions");
}

fractions::ElutionOrder order_of(const CommandOptions &options) {
    const std::string &order = options.get<std::string>("order");
    if (order == "rf") {
        return fractions::ElutionOrder::by_rf;
    }
    if (order != "open") {
        throw InputError(at_option("order"), in_quotes(order), "rf or open");
    }
    return fractions::ElutionOrder::open;
}

/// Puts what was weighed and measured to the fractions.
void add_amounts(std::vector<fractions::Fraction> &fractions,
                 const std::map<int, FractionAmount> &amounts) {
    for (fractions::Fraction &fraction : fractions) {
        if (const auto amount = amounts.find(fraction.number); amount != amounts.end()) {
            const auto &[mass_mg, volume_ml] = amount->second;
            fraction.mass_mg = mass_mg ? mass_mg : fraction.mass_mg;
            fraction.volume_ml = volume_ml ? volume_ml : fraction.volume_ml;
        }
    }
}

double front_of(const FractionTable &table) {
    return table.fronts_mm.empty() ? kUsualFront_mm : upper_median(table.fronts_mm);
}

void note_plates(const fractions::PlatedFractions &plated, std::vector<std::string> &notes) {
    for (const fractions::PlateShift &shift : plated.shifts) {
        const std::string name =
            shift.plate.empty() ? "the plate without a name" : "plate " + shift.plate;
        notes.push_back(
            shift.shared_fractions > 0
                ? fmt::format("{} runs {:+.3f} in Rf against the plates before it (from {} "
                              "fraction{} on both), which was taken off",
                              name, shift.shift, shift.shared_fractions,
                              shift.shared_fractions > 1 ? "s" : "")
                : fmt::format("{} shares no usable fraction with the plates before it: its Rf "
                              "counts as read; spot one fraction on both plates to be sure",
                              name));
    }
}

void judge_plates(const FractionTable &table, const CommandOptions &options, PoolResult &result) {
    const double front_mm = front_of(table);
    const auto reading_error_mm = options.positive("reading-error-mm");
    const auto given = options.positive("tolerance");
    if (given && *given >= 1.0) {
        throw wrong_option("tolerance", *given, "a difference of Rf below 1");
    }
    result.tolerance = given.value_or(
        std::min(0.5, fractions::default_tolerance(front_mm, reading_error_mm.value())));
    auto plated = fractions::read_together(table.lanes, *result.tolerance);
    result.run.fractions = std::move(plated.fractions);
    add_amounts(result.run.fractions, table.amounts);
    result.run.components = fractions::find_components(result.run.fractions, *result.tolerance);
    result.notes.push_back(
        given ? fmt::format("Spots of neighbouring fractions count as one component within {:g} "
                            "in Rf, as given.",
                            *given)
              : fmt::format("Spots of neighbouring fractions count as one component within {:.3f} "
                            "in Rf: three standard uncertainties of a difference, distances read "
                            "to {:g} mm on a front at {:g} mm{}.",
                            *result.tolerance, *reading_error_mm, front_mm,
                            table.fronts_mm.empty() ? " (assumed)" : ""));
    note_plates(plated, result.notes);
}

std::vector<fractions::Fraction> trace_fractions(const FractionTable &table,
                                                 const CommandOptions &options) {
    const auto fraction_ml = options.positive("fraction-ml", kLargestOption);
    if (table.points.empty()) {
        std::vector<fractions::Fraction> fractions;
        for (const auto &[number, signal] : table.signals) {
            fractions.push_back({number, {}, {}, signal, std::nullopt, fraction_ml});
        }
        return fractions;
    }
    if (!fraction_ml) {
        throw InputError(at_option("fraction-ml"), "nothing",
                         "the size of a fraction in mL, for a trace by volume");
    }
    for (const fractions::TracePoint &point : table.points) {
        if (point.volume_ml > *fraction_ml * kMostFractions) {
            throw wrong_option("fraction-ml", *fraction_ml,
                               fmt::format("at most {} fractions, of larger size for {} mL",
                                           kMostFractions, exact_text(point.volume_ml)));
        }
    }
    return fractions::fractions_of_trace(table.points, *fraction_ml);
}

void judge_trace(const FractionTable &table, const CommandOptions &options, PoolResult &result) {
    auto fractions = trace_fractions(table, options);
    add_amounts(fractions, table.amounts);
    double largest = 0.0;
    for (const fractions::Fraction &fraction : fractions) {
        largest = std::max(largest, fraction.signal.value());
    }
    const bool is_given = options.has("baseline");
    result.threshold =
        is_given ? options.get<double>("baseline") : fractions::kThresholdShare * largest;
    if (!std::isfinite(*result.threshold)) {
        throw wrong_option("baseline", *result.threshold, "a signal");
    }
    fractions::TraceBands bands = fractions::find_bands(std::move(fractions), *result.threshold);
    result.run = std::move(bands.run);
    if (!bands.shoulders.empty()) {
        result.warnings.push_back(
            {fractions::WarningKind::shoulder, {}, fractions::ranges_of(bands.shoulders)});
    }
    result.notes.push_back(fmt::format("Signals up to {:.4g} count as nothing ({}).",
                                       *result.threshold,
                                       is_given ? "as given" : "2 % of the largest"));
    if (!table.points.empty()) {
        result.notes.emplace_back("Volume 0 is taken as the start of fraction 1.");
    }
}

/// The component that is the compound with the highest probability, together with what cannot be
/// told apart from it.
void find_named_target(const PoolResult &result, PoolTarget &target) {
    constexpr double worth_saying = 0.05;
    for (std::size_t i = 0; i < result.candidates.size(); ++i) {
        const Identification &identified = result.candidates[i];
        for (const matcher::Group &group : identified.groups) {
            const bool holds_it =
                std::any_of(group.members.begin(), group.members.end(), [&](std::size_t member) {
                    return equal_ignoring_case(identified.candidates[member].name, target.asked);
                });
            if (holds_it &&
                group.probability >= std::max(worth_saying, target.probability.value_or(0.0))) {
                target.component = i;
                target.probability = group.probability;
            }
        }
    }
}

PoolTarget find_target(const PoolResult &result, const std::string &asked) {
    PoolTarget target{asked, std::nullopt, std::nullopt};
    const auto &components = result.run.components;
    if (const auto rf = number_from_text(asked)) {
        double nearest = result.tolerance.value_or(0.0);
        for (std::size_t i = 0; i < components.size(); ++i) {
            const double distance = std::abs(components[i].rf.value_or(HUGE_VAL) - *rf);
            if (distance <= nearest) {
                nearest = distance;
                target.component = i;
            }
        }
        return target;
    }
    for (std::size_t i = 0; i < components.size(); ++i) {
        if (equal_ignoring_case(components[i].name, asked)) {
            target.component = i;
            return target;
        }
    }
    find_named_target(result, target);
    return target;
}

void name_by_library(const Invocation &invocation, const CommandOptions &options,
                     const FractionTable &table, PoolResult &result) {
    const std::string &system = options.get<std::string>("system");
    if (result.run.is_trace) {
        throw InputError(at_option("system"), in_quotes(system),
                         "no system for a trace, which has no Rf");
    }
    library::Database database = open_library(invocation, library::Access::read);
    ComponentNames names = name_components(
        result.run, {system, front_of(table), options.get<double>("reading-error-mm")}, database);
    result.candidates = std::move(names.components);
    result.notes.insert(result.notes.end(), names.notes.begin(), names.notes.end());
}

PoolResult result_of(const Invocation &invocation, const CommandOptions &options,
                     const FractionTable &table, const std::string &file) {
    PoolResult result;
    result.loaded_mg = options.positive("loaded-mg", kLargestOption);
    for (const std::string &column : table.unused) {
        result.notes.push_back("Column " + column + " is not read.");
    }
    if (table.is_trace()) {
        judge_trace(table, options, result);
    } else {
        judge_plates(table, options, result);
    }
    if (result.run.components.size() > kMostComponents) {
        throw InputError(
            {file, 0, ""}, fmt::format("{} components", result.run.components.size()),
            fmt::format("at most {} of one column, or a larger --tolerance", kMostComponents));
    }
    result.pooling = fractions::judge_fractions(result.run);
    const auto warnings = fractions::find_warnings(
        result.run, result.pooling, result.tolerance.value_or(0.0), order_of(options));
    result.warnings.insert(result.warnings.end(), warnings.begin(), warnings.end());
    if (options.has("system")) {
        name_by_library(invocation, options, table, result);
    }
    if (options.has("target")) {
        result.target = find_target(result, options.get<std::string>("target"));
    }
    return result;
}

} // namespace

int run_pool(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] pool FILE [options]",
        "Says which fractions of a column hold which component, which to combine and\n"
        "what to keep apart. FILE (or - for standard input) is one of\n"
        "  plates:  fraction,Rf or fraction,distance_mm,front_mm; a row a spot, no value\n"
        "           where nothing was seen; optional plate, lane, intensity, mass_mg,\n"
        "           volume_mL (both of the fraction)\n"
        "  trace:   fraction,signal or volume_mL,signal (needs --fraction-ml)\n"
        "Exit code 1 if something should be looked at before fractions are combined.");
    add_pool_options(options);
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    if (!options.has("file")) {
        throw InputError({"command line", 0, ""}, "no file", "a FILE with fractions, or -");
    }
    const auto file_of_report = report_file(options);
    const std::vector<std::string> names = options.texts("file");
    TracedInputs inputs(file_of_report ? names : std::vector<std::string>{}, invocation.in);
    InputFile input(names.front(), inputs.standard_input());
    const FractionTable table = read_fractions(input.stream(), input.name());
    const PoolResult result = result_of(invocation, options, table, input.name());
    const Json objects = pool_json(result);
    if (invocation.json) {
        invocation.out << json_lines(objects);
    } else {
        invocation.out << pool_text(result, style_for(invocation.out));
    }
    if (file_of_report) {
        const LibraryUse library = options.has("system") ? LibraryUse::opened : LibraryUse::none;
        write_report(*file_of_report,
                     {trace_of("pool", invocation, inputs.traces(), library), {}, objects},
                     pool_report());
    }
    return needs_attention(result) ? kNeedsAttention : kDone;
}

} // namespace cospot

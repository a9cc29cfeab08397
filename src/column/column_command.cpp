#include "column/column_document.h"
#include "column/column_json.h"
#include "column/planned_column.h"
#include "options/command.h"
#include "options/options.h"
#include "options/photo_options.h"
#include "options/table_options.h"
#include "report/presentation.h"
#include "shared/number.h"
#include "shared/text.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;

constexpr double kSmallestOption = 1e-3;
constexpr double kLargestOption = 1e6;
constexpr double kLargestLength_mm = 1e4;

std::optional<std::size_t> sample_lane_of(const CommandOptions &options) {
    if (!options.has("sample-lane")) {
        return std::nullopt;
    }
    const int lane = options.get<int>("sample-lane");
    if (lane < 1) {
        throw bad_option("sample-lane", std::to_string(lane), "the number of a lane, from 1");
    }
    return static_cast<std::size_t>(lane);
}

void add_column_options(CommandOptions &options) {
    options.add()("system", po::value<std::string>(),
                  "system of the plate: its eluent, and what the library holds of other mixtures")(
        "compounds", po::value<std::string>(),
        "instead of FILE: compounds of the library, divided by ',' or ';', with their Rf on "
        "--system")("target", po::value<std::string>(),
                    "compound that is wanted (else role in FILE)")(
        "eluent", po::value<std::string>(),
        "eluent of the plate without --system, such as 'hexane:ethyl acetate 4:1'")(
        "load-mg", po::value<double>(), "mass of the sample (else the sum of amount_mg)")(
        "load-ml", po::value<double>(), "volume in which the sample is loaded (else dry)")(
        "diameter-mm", po::value<double>(), "inner diameter of the column (else by the table)")(
        "bed-mm", po::value<double>()->default_value(fractions::kFlashBed_mm, "150"),
        "height of the silica")("silica-g", po::value<double>(),
                                "mass of the silica, of a cartridge whose bed you do not know")(
        "column-volume-ml", po::value<double>(),
        "measured hold-up volume, with what lies outside the bed (else from the silica)")(
        "outside-ml", po::value<double>(),
        "volume outside the bed: tubing, valve, detector, head of the column (else "
        "assumed)")("column", po::value<std::string>(),
                    "a column of the library with its learned runs, instead of a size")(
        "plates", po::value<double>(), "plate number (else one plate a mm of bed)")(
        "fraction-ml", po::value<double>(), "size of a fraction (else by the table)")(
        "discarded-ml", po::value<double>(), "volume discarded before fraction 1");
    options.add()("sample-lane", po::value<int>(),
                  "of a photo with several lanes: the one of which a column is planned");
    add_photo_options(options);
    add_map_option(options);
    add_report_option(options);
    options.positional("file", 1, "compounds");
}

/// A mass, volume or length of a column that can be.
std::optional<double> size_option(const CommandOptions &options, const char *name,
                                  double largest = kLargestOption) {
    return options.positive(name, largest, kSmallestOption);
}

fractions::ColumnSettings column_settings_of(const CommandOptions &options) {
    fractions::ColumnSettings settings;
    settings.load_mg = size_option(options, "load-mg");
    settings.diameter_mm = size_option(options, "diameter-mm", kLargestLength_mm);
    settings.bed_mm = size_option(options, "bed-mm", kLargestLength_mm).value();
    settings.silica_g = size_option(options, "silica-g");
    settings.hold_up_ml = size_option(options, "column-volume-ml");
    settings.outside_ml = size_option(options, "outside-ml");
    settings.plate_number = size_option(options, "plates");
    settings.fraction_ml = size_option(options, "fraction-ml");
    settings.load_ml = size_option(options, "load-ml").value_or(0.0);
    settings.discarded_ml = size_option(options, "discarded-ml").value_or(0.0);
    return settings;
}

/// Sizes that contradict each other.
void check_sizes(const CommandOptions &options, const fractions::ColumnSettings &settings) {
    if (options.has("column")) {
        for (const char *size :
             {"diameter-mm", "bed-mm", "silica-g", "column-volume-ml", "outside-ml"}) {
            if (options.is_given(size)) {
                throw bad_option(size, "a size beside --column",
                                 "one of them: the library holds the size of your column");
            }
        }
    }
    if (settings.silica_g && (settings.diameter_mm || options.is_given("bed-mm"))) {
        throw bad_option("silica-g", "a mass beside --diameter-mm or --bed-mm",
                         "either the mass of the silica or its bed");
    }
    if (settings.hold_up_ml && settings.outside_ml &&
        *settings.outside_ml >= *settings.hold_up_ml) {
        throw bad_option("outside-ml", exact_text(*settings.outside_ml),
                         "less than --column-volume-ml, of which it is a part");
    }
}

ColumnOptions column_options_of(const CommandOptions &options, const Invocation &invocation) {
    if (options.has("file") == options.has("compounds")) {
        throw bad_usage(options.has("file") ? "a FILE and --compounds" : "no compounds",
                        "a FILE (or -), or --system with --compounds");
    }
    if (options.has("compounds") && !options.has("system")) {
        throw bad_option("system", "nothing",
                         "the system on which the library knows the compounds");
    }
    if (options.has("eluent") && options.has("system")) {
        throw bad_option("eluent", in_quotes(options.get<std::string>("eluent")),
                         "no eluent beside --system, which has one");
    }
    ColumnOptions column;
    if (options.has("file")) {
        column.file = options.texts("file").front();
    }
    column.aliases = aliases_of(options, invocation);
    column.photo = photo_settings(options);
    column.photo.sample_lane = sample_lane_of(options);
    column.compounds = options.text("compounds");
    column.system = options.text("system");
    column.target = options.text("target");
    column.eluent = options.text("eluent");
    column.own_column = options.text("column");
    column.settings = column_settings_of(options);
    check_sizes(options, column.settings);
    // A report names the checksum of the library, which stays as it is.
    column.keeps_models = !options.has("report");
    return column;
}

} // namespace

int run_column(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] column FILE|--compounds LIST [options]",
        "Plans a preparative silica column from a plate: which compound is in which fraction\n"
        "and how sure that is, resolution of neighbours, diameter, silica and fraction size,\n"
        "and how to change the eluent. FILE (or - for standard input) is a table\n"
        "  compound,Rf   optional role (target or impurity) and amount_mg\n"
        "Exit code 1 if something should be looked at before the column is run.");
    add_column_options(options);
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    Presentation presentation(invocation, options);
    const ColumnOptions asked = column_options_of(options, invocation);
    TracedInputs inputs(presentation.has_report() ? input_names(options, {})
                                                  : std::vector<std::string>{},
                        invocation.in);
    const ColumnResult result = planned_column(asked, invocation, inputs.standard_input());
    if (presentation.needs_json()) {
        for (Json &object : column_json(result)) {
            presentation.add(std::move(object));
        }
    }
    const LibraryUse library =
        asked.system || asked.own_column ? LibraryUse::opened : LibraryUse::none;
    presentation.finish(
        {}, [&] { return column_document(result); },
        [&] { return trace_of("column", invocation, inputs.traces(), library); });
    return result.needs_attention() ? kNeedsAttention : kDone;
}

} // namespace cospot

#include "command.h"
#include "command_line.h"
#include "document/style.h"
#include "expectation/eluent_advice.h"
#include "expectation/expected_retention.h"
#include "fractions/column_plan.h"
#include "library/column_runs.h"
#include "library/compounds.h"
#include "library/systems.h"
#include "library_names.h"
#include "open_library.h"
#include "options.h"
#include "output/basis_text.h"
#include "output/column_json.h"
#include "output/column_text.h"
#include "readers/column_table.h"
#include "readers/input_file.h"
#include "report/column_report.h"
#include "shared/eluent.h"
#include "shared/number.h"
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

constexpr double kSmallestOption = 1e-3;
constexpr double kLargestOption = 1e6;
constexpr double kLargestLength_mm = 1e4;

void add_column_options(CommandOptions &options) {
    options.add()("system", po::value<std::string>(),
                  "system of the plate: its eluent, and what the library holds of other mixtures")(
        "compounds", po::value<std::string>(),
        "compounds of the library, divided by ',' or ';', instead of FILE: their Rf on --system")(
        "target", po::value<std::string>(), "compound that is wanted (else role in FILE)")(
        "eluent", po::value<std::string>(),
        "eluent of the plate without --system, such as 'hexane:ethyl acetate 4:1'")(
        "load-mg", po::value<double>(), "mass of the sample (else the sum of amount_mg)")(
        "load-ml", po::value<double>(), "volume in which it is loaded (else dry)")(
        "diameter-mm", po::value<double>(), "inner diameter of the column (else by the table)")(
        "bed-mm", po::value<double>()->default_value(fractions::kFlashBed_mm, "150"),
        "height of the silica")("silica-g", po::value<double>(),
                                "mass of the silica, of a cartridge whose bed you do not know")(
        "column-volume-ml", po::value<double>(),
        "hold-up volume that you measured, with all that lies outside the bed (else from the "
        "silica)")("outside-ml", po::value<double>(),
                   "of it, outside the bed: tubing, valve, detector, head of the column (else "
                   "assumed)")("column", po::value<std::string>(),
                               "your own column of the library, with its learned runs, instead of "
                               "a size")("plates", po::value<double>(),
                                         "plate number (else one plate a mm of bed)")(
        "fraction-ml", po::value<double>(), "size of a fraction (else by the table)")(
        "forerun-ml", po::value<double>(), "collected before fraction 1");
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
    settings.forerun_ml = size_option(options, "forerun-ml").value_or(0.0);
    return settings;
}

/// Sizes that contradict each other.
void check_sizes(const CommandOptions &options, const fractions::ColumnSettings &settings) {
    if (options.has("column")) {
        for (const char *size :
             {"diameter-mm", "bed-mm", "silica-g", "column-volume-ml", "outside-ml"}) {
            if (options.is_given(size)) {
                throw InputError(at_option(size), "a size beside --column",
                                 "one of them: the library holds the size of your column");
            }
        }
    }
    if (settings.silica_g && (settings.diameter_mm || options.is_given("bed-mm"))) {
        throw InputError(at_option("silica-g"), "a mass beside --diameter-mm or --bed-mm",
                         "either the mass of the silica or its bed");
    }
    if (settings.hold_up_ml && settings.outside_ml &&
        *settings.outside_ml >= *settings.hold_up_ml) {
        throw InputError(at_option("outside-ml"), exact_text(*settings.outside_ml),
                         "less than --column-volume-ml, of which it is a part");
    }
}

/// A column of the laboratory's own, with what its runs showed.
fractions::OwnColumn own_column(const std::string &name, library::Database &database) {
    const auto stored = library::find_column(database, name);
    if (!stored) {
        throw InputError(at_option("column"), in_quotes(name),
                         "a column of the library (cospot list columns)");
    }
    fractions::OwnColumn own{stored->name, {}, {}};
    own.stated.silica_g = stored->silica_g;
    own.stated.hold_up_ml = stored->hold_up_ml;
    own.stated.outside_ml = stored->outside_ml;
    if (stored->diameter_mm && stored->bed_mm) {
        own.stated.bed = quantities::ColumnBed{*stored->diameter_mm, *stored->bed_mm};
    }
    for (const library::ColumnBand &band : library::bands_of_column(database, stored->id)) {
        const std::string run = band.run.empty() ? band.date : band.run + " " + band.date;
        own.seen.push_back({run, band.compound, band.rf, band.start_ml, band.peak_ml, band.end_ml,
                            band.amount_mg, band.load_ml});
    }
    return own;
}

std::optional<AskedCompound> compound_called(const std::string &name, library::Database &database) {
    const auto found = library::find_by_name(database, name);
    if (found.size() > 1) {
        throw InputError(at_option("compounds"),
                         in_quotes(name) + ", which stands for several structures",
                         "a name, registry number or InChIKey of one compound");
    }
    if (found.empty()) {
        return std::nullopt;
    }
    return AskedCompound{found.front().name, found.front().smiles, found.front().inchikey,
                         found.front().id};
}

std::vector<std::string> split(const std::string &text, char divider) {
    std::vector<std::string> parts;
    std::size_t begin = 0;
    for (std::size_t end = 0; end != std::string::npos; begin = end + 1) {
        end = text.find(divider, begin);
        parts.push_back(text.substr(begin, end - begin));
    }
    return parts;
}

/// The compounds of a list. Names hold commas ("1,8-cineole"): as many of the pieces between commas
/// belong together as make a known name.
std::vector<AskedCompound> listed_compounds(const std::string &text, library::Database &database) {
    const char divider = text.find(';') != std::string::npos ? ';' : ',';
    const std::vector<std::string> pieces = split(text, divider);
    std::vector<AskedCompound> compounds;
    for (std::size_t first = 0; first < pieces.size();) {
        std::optional<AskedCompound> found;
        std::size_t last = divider == ',' ? pieces.size() : first + 1;
        for (; last > first && !found; --last) {
            std::string name = pieces[first];
            for (std::size_t i = first + 1; i < last; ++i) {
                name += divider + pieces[i];
            }
            found = compound_called(std::string(trimmed(name)), database);
        }
        if (!found) {
            throw InputError(at_option("compounds"), in_quotes(trimmed(pieces[first])),
                             "compounds of the library (cospot list)");
        }
        first = last + 1;
        const bool is_again =
            std::any_of(compounds.begin(), compounds.end(),
                        [&](const auto &known) { return known.inchikey == found->inchikey; });
        if (is_again) {
            throw InputError(at_option("compounds"), in_quotes(found->name) + " again",
                             "each compound once");
        }
        compounds.push_back(std::move(*found));
    }
    return compounds;
}

library::System system_of(const CommandOptions &options, library::Database &database) {
    const std::string &name = options.get<std::string>("system");
    library::System system = system_named(database, name, at_option("system"));
    if (!can_show(system.technique, Quantity::Rf)) {
        throw InputError(at_option("system"), in_quotes(name) + ", which shows no R_F",
                         "the system of the plate");
    }
    return system;
}

/// Compounds of the library with the R_F that is expected of them on the system.
std::vector<fractions::PlateCompound> compounds_of_library(const std::string &list,
                                                           const library::System &system,
                                                           RetentionModels &models,
                                                           ColumnResult &result) {
    const std::vector<AskedCompound> asked = listed_compounds(list, models.database());
    const auto expected = expected_retention(models, asked, {system});
    std::vector<fractions::PlateCompound> compounds;
    for (std::size_t i = 0; i < asked.size(); ++i) {
        const auto found =
            std::find_if(expected[i].begin(), expected[i].end(), [](const auto &retention) {
                return retention.quantity == Quantity::Rf && retention.prediction.has_value();
            });
        if (found == expected[i].end()) {
            throw InputError(at_option("compounds"), in_quotes(asked[i].name),
                             "compounds of which the library can tell an R_F on " + system.name +
                                 " (cospot predict says why not)");
        }
        // Nine of ten lie within 1.645 standard deviations to both sides.
        constexpr double nine_of_ten = 1.645;
        compounds.push_back({asked[i].name, found->expected, fractions::Role::unknown, std::nullopt,
                             std::max((found->high - found->low) / (2.0 * nine_of_ten), 1e-3)});
        result.expected.emplace(asked[i].name, *found);
        result.notes.push_back(fmt::format("Rf of {}: {} on {}, nine of ten new values between "
                                           "{:.2f} and {:.2f}",
                                           asked[i].name, to_text(found->basis), system.name,
                                           found->low, found->high));
    }
    return compounds;
}

std::vector<fractions::PlateCompound> compounds_of_file(const CommandOptions &options,
                                                        std::istream &standard_input,
                                                        ColumnResult &result) {
    InputFile input(options.texts("file").front(), standard_input);
    ColumnTable table = read_column_compounds(input.stream(), input.name());
    for (const std::string &column : table.unused) {
        result.notes.push_back("Column " + column + " is not read.");
    }
    return std::move(table.compounds);
}

/// Makes the compound that the user names on the command line the target, instead of the table's.
void set_target(const std::string &name, std::vector<fractions::PlateCompound> &compounds) {
    bool is_there = false;
    for (fractions::PlateCompound &compound : compounds) {
        if (equal_ignoring_case(compound.name, name)) {
            compound.role = fractions::Role::target;
            is_there = true;
        } else if (compound.role == fractions::Role::target) {
            compound.role = fractions::Role::unknown;
        }
    }
    if (!is_there) {
        throw InputError(at_option("target"), in_quotes(name),
                         "one of the compounds of the sample");
    }
}

/// What should become of the eluent, and what the library knows about other mixtures.
void advise_on_eluent(const CommandOptions &options, const library::System *system,
                      RetentionModels *models, ColumnResult &result) {
    if (system != nullptr) {
        result.mobile_phase = system->mobile_phase;
    } else if (options.has("eluent")) {
        result.mobile_phase = options.get<std::string>("eluent");
    }
    if (!result.mobile_phase.empty()) {
        result.strong_solvent =
            strongest_solvent(parse_eluent(result.mobile_phase, at_option("eluent")));
    }
    if (!result.plan.target) {
        return;
    }
    const fractions::PlateCompound &target = result.plan.compounds[*result.plan.target];
    result.change = eluent_change(target.rf);
    if (models == nullptr) {
        return;
    }
    if (const auto known = compound_called(target.name, models->database())) {
        result.eluents = advise_eluent(*models, *system, *known);
    } else {
        result.notes.push_back("The library does not hold " + target.name +
                               ": nothing is known of it in other mixtures.");
    }
}

ColumnResult result_of(const Invocation &invocation, const CommandOptions &options,
                       std::istream &standard_input) {
    if (options.has("file") == options.has("compounds")) {
        throw InputError({"command line", 0, ""},
                         options.has("file") ? "a FILE and --compounds" : "no compounds",
                         "a FILE (or -), or --system with --compounds");
    }
    if (options.has("compounds") && !options.has("system")) {
        throw InputError(at_option("system"), "nothing",
                         "the system on which the library knows the compounds");
    }
    if (options.has("eluent") && options.has("system")) {
        throw InputError(at_option("eluent"), in_quotes(options.get<std::string>("eluent")),
                         "no eluent beside --system, which has one");
    }
    ColumnResult result;
    result.settings = column_settings_of(options);
    check_sizes(options, result.settings);
    std::optional<library::Database> database;
    std::optional<library::System> system;
    std::optional<RetentionModels> models;
    if (options.has("system") || options.has("column")) {
        database.emplace(open_library(invocation, library::Access::read));
    }
    if (options.has("system")) {
        system = system_of(options, *database);
        models.emplace(*database);
    }
    if (options.has("column")) {
        result.settings.own = own_column(options.get<std::string>("column"), *database);
        const fractions::OwnColumn &own = *result.settings.own;
        result.held_out = fractions::held_out(fractions::assumed_column(own.stated), own.seen);
    }
    auto compounds =
        options.has("file")
            ? compounds_of_file(options, standard_input, result)
            : compounds_of_library(options.get<std::string>("compounds"), *system, *models, result);
    if (options.has("target")) {
        set_target(options.get<std::string>("target"), compounds);
    }
    result.plan = fractions::plan_column(std::move(compounds), result.settings);
    advise_on_eluent(options, system ? &*system : nullptr, models ? &*models : nullptr, result);
    if (models && !options.has("report")) {
        models->keep(); // a report names the checksum of the library, which stays as it is
    }
    return result;
}

} // namespace

int run_column(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] column FILE|--compounds LIST [options]",
        "Plans a preparative silica column from a plate: column volumes, fractions of\n"
        "each compound and how sure they are, resolution of neighbours, diameter, silica and "
        "fraction size, and\n"
        "what should become of the eluent. FILE (or - for standard input) is a table\n"
        "  compound,Rf   optional role (target or impurity) and amount_mg\n"
        "Exit code 1 if something should be looked at before the column is run.");
    add_column_options(options);
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    const auto file_of_report = report_file(options);
    TracedInputs inputs(file_of_report ? input_names(options, {}) : std::vector<std::string>{},
                        invocation.in);
    const ColumnResult result = result_of(invocation, options, inputs.standard_input());
    const Json objects = column_json(result);
    if (invocation.json) {
        invocation.out << json_lines(objects);
    } else {
        invocation.out << column_text(result, style_for(invocation.out));
    }
    if (file_of_report) {
        const LibraryUse library =
            options.has("system") || options.has("column") ? LibraryUse::opened : LibraryUse::none;
        write_report(*file_of_report,
                     {trace_of("column", invocation, inputs.traces(), library), {}, objects},
                     column_report());
    }
    return result.needs_attention() ? kNeedsAttention : kDone;
}

} // namespace cospot

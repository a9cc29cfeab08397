#include "library/partial_file.h"
#include "options/command.h"
#include "options/open_library.h"
#include "options/options.h"
#include "options/table_options.h"
#include "readers/input_file.h"
#include "readers/retention_series_table.h"
#include "report/presentation.h"
#include "resolve/answer.h"
#include "resolve/library_series.h"
#include "resolve/resolve_document.h"
#include "resolve/resolve_json.h"
#include "resolve/window_diagram_of.h"
#include "shared/number.h"
#include "shared/robust.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;

using resolve::Answer;
using resolve::MeasuredCompound;
using Texts = std::vector<std::string>;

constexpr double kUsualPlateNumber = 10000.0;

void add_resolve_options(CommandOptions &options) {
    options.add()("system", po::value<std::string>(),
                  "instead of FILE: a system of the library, with all that differ from it in the "
                  "fraction only")("modifier", po::value<std::string>(),
                                   "the solvent that the fraction counts (--system)")(
        "compounds", po::value<Texts>()->composing(), "only this one; repeat it (else all)")(
        "hold-up", po::value<double>(), "hold-up time in min, for times")(
        "plates", po::value<double>(), "plate number (else from width_half, else 10000)")(
        "phase", po::value<std::string>(), "of FILE: reversed (unless given) or normal")(
        "k-from", po::value<double>()->default_value(1.0, "1"),
        "least retention factor k that is accepted (common practice)")(
        "k-to", po::value<double>()->default_value(10.0, "10"),
        "largest retention factor k that is accepted (common practice)")(
        "resolution", po::value<double>()->default_value(1.5, "1.5"),
        "resolution that is enough: down to the baseline (common practice)")(
        "wanted-k", po::value<double>(), "the fraction for this k of --compound")(
        "compound", po::value<std::string>(), "the compound of --wanted-k")(
        "gradient", po::value<std::string>(),
        "FROM,TO,MIN: retention times in a linear gradient, fractions 0 to 1")(
        "dwell", po::value<double>(), "dwell time of the gradient in min (else 0)")(
        "extrapolate", "answer far outside the measured fractions too, marked")(
        "picture", po::value<std::string>(), "writes the window diagram as SVG into a new file");
    add_map_option(options);
    add_report_option(options);
    options.positional("file", 1, "readings");
}

quantities::LiquidPhase phase_of_option(const CommandOptions &options) {
    const std::string text = options.text("phase").value_or("reversed");
    if (text != "reversed" && text != "normal") {
        throw bad_option("phase", in_quotes(text), "reversed or normal");
    }
    return text == "normal" ? quantities::LiquidPhase::normal : quantities::LiquidPhase::reversed;
}

quantities::LinearGradient gradient_of(const CommandOptions &options,
                                       std::optional<double> hold_up_min) {
    const auto &text = options.get<std::string>("gradient");
    const std::string expected =
        "FROM,TO,MIN, e.g. 0.05,0.95,20: two fractions from 0 to 1 and a time above 0 min";
    std::vector<double> numbers;
    std::istringstream pieces(text);
    for (std::string piece; std::getline(pieces, piece, ',');) {
        numbers.push_back(parse_number(piece, at_option("gradient"), expected));
    }
    const auto is_fraction = [](double value) { return value >= 0.0 && value <= 1.0; };
    if (numbers.size() != 3 || !is_fraction(numbers[0]) || !is_fraction(numbers[1]) ||
        numbers[2] <= 0.0) {
        throw bad_option("gradient", in_quotes(text), expected);
    }
    if (!hold_up_min) {
        throw bad_option("gradient", "no --hold-up", "--hold-up MIN with it");
    }
    const double dwell = options.has("dwell") ? options.get<double>("dwell") : 0.0;
    if (!(dwell >= 0.0 && dwell < 1e6)) {
        throw bad_option("dwell", exact_text(dwell), "a time of 0 min or more");
    }
    return {numbers[0], numbers[1], numbers[2], dwell, *hold_up_min};
}

void read_question(const CommandOptions &options, Answer &answer) {
    resolve::Question &question = answer.question;
    answer.hold_up_min = options.positive("hold-up");
    question.window = {*options.positive("k-from"), *options.positive("k-to")};
    if (question.window.from >= question.window.to) {
        throw bad_option("k-from", exact_text(question.window.from), "less than --k-to");
    }
    question.resolution = *options.positive("resolution", 100.0);
    question.extrapolate = options.has("extrapolate");
    if (options.has("wanted-k") != options.has("compound")) {
        throw bad_option(options.has("wanted-k") ? "wanted-k" : "compound", "one without the other",
                         "--wanted-k K --compound NAME");
    }
    if (options.has("wanted-k")) {
        question.wanted = {options.get<std::string>("compound"), *options.positive("wanted-k")};
    }
    if (options.has("gradient")) {
        question.gradient = gradient_of(options, answer.hold_up_min);
    } else if (options.has("dwell")) {
        throw bad_option("dwell", "no --gradient", "--gradient FROM,TO,MIN with it");
    }
    if (options.has("file") == options.has("system")) {
        throw bad_usage(options.has("file") ? "FILE and --system" : "neither FILE nor --system",
                        "a FILE with readings, or --system NAME of the library");
    }
}

/// Leaves only the compounds asked for, in the order of the file.
void select_compounds(const CommandOptions &options, std::vector<MeasuredCompound> &compounds) {
    if (!options.has("compounds")) {
        return;
    }
    std::vector<MeasuredCompound> selected;
    for (const std::string &name : options.get<Texts>("compounds")) {
        const auto found = std::find_if(compounds.begin(), compounds.end(), [&](const auto &one) {
            return equal_ignoring_case(one.name, name);
        });
        if (found == compounds.end()) {
            throw bad_option("compounds", in_quotes(name), "a compound of the file");
        }
        selected.push_back(std::move(*found));
        compounds.erase(found);
    }
    compounds = std::move(selected);
}

void set_plate_number(const CommandOptions &options, const std::vector<double> &from_widths,
                      Answer &answer) {
    answer.question.plate_number = kUsualPlateNumber;
    answer.plate_basis = "assumed";
    if (const auto given = options.positive("plates")) {
        answer.question.plate_number = *given;
        answer.plate_basis = "as given";
    } else if (!from_widths.empty()) {
        answer.question.plate_number = upper_median(from_widths);
        answer.plate_basis = fmt::format("median of {} widths", from_widths.size());
    }
}

/// Opens the library, where there is one, for what it knows of the compounds.
LibraryUse read_table(const CommandOptions &options, const Invocation &invocation,
                      std::istream &standard_input, Answer &answer) {
    if (options.has("modifier")) {
        throw bad_option("modifier", "FILE", "--system NAME with it");
    }
    InputFile file(options.get<Texts>("file").front(), standard_input);
    RetentionSeries series = read_retention_series(file.stream(), file.name(), answer.hold_up_min,
                                                   aliases_of(options, invocation));
    select_compounds(options, series.compounds);
    answer.question.compounds = std::move(series.compounds);
    answer.notes = std::move(series.notes);
    answer.question.phase = phase_of_option(options);
    set_plate_number(options, series.plate_numbers, answer);
    std::error_code error;
    if (!std::filesystem::is_regular_file(invocation.library, error)) {
        return LibraryUse::none;
    }
    library::Database database = open_library(invocation, library::Access::read);
    resolve::add_log_p(database, answer.question.compounds);
    return LibraryUse::opened;
}

LibraryUse read_library(const CommandOptions &options, const Invocation &invocation,
                        Answer &answer) {
    if (options.has("phase")) {
        throw bad_option("phase", "--system", "FILE with it: the library states the phase");
    }
    library::Database database = open_library(invocation, library::Access::read);
    resolve::LibrarySeries series =
        resolve::library_series(database, options.get<std::string>("system"),
                                options.text("modifier"), options.texts("compounds"));
    resolve::add_log_p(database, series.compounds);
    answer.question.compounds = std::move(series.compounds);
    answer.question.phase = quantities::liquid_phase_of(series.stationary_phase);
    answer.modifier = series.modifier;
    answer.systems = std::move(series.systems);
    answer.notes = std::move(series.notes);
    set_plate_number(options, {}, answer);
    return LibraryUse::opened;
}

/// Nobody resolves more in one run, and the diagram would say nothing.
void check_count(const Answer &answer) {
    constexpr std::size_t most = 60;
    const std::size_t count = answer.question.compounds.size();
    if (count > most) {
        throw bad_option("compounds", fmt::format("{} compounds", count),
                         fmt::format("at most {}: name those of the mixture", most));
    }
}

void write_picture(const std::string &file, const Answer &answer) {
    if (answer.question.compounds.size() < 2) {
        throw bad_option("picture", "one compound", "two or more, to be resolved");
    }
    library::write_file(
        file, window_diagram_picture(window_diagram_of(answer), PictureFrame::alone) + '\n');
}

} // namespace

int run_resolve(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] resolve FILE [options]",
        "Isocratic liquid chromatography: from retention at two or more fractions of the\n"
        "modifier, finds the fraction that resolves the mixture best, that gives a compound\n"
        "the k wanted, and the times in a gradient. FILE has the columns compound, fraction\n"
        "(0 to 1) or percent, and k or tR (min, with --hold-up); width_half is optional.\n"
        "Exit code 1 where no fraction does what is asked.");
    add_resolve_options(options);
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    Presentation presentation(invocation, options);
    TracedInputs inputs(presentation.has_report() ? input_names(options, {}) : Texts{},
                        invocation.in);
    Answer answer;
    read_question(options, answer);
    const LibraryUse library =
        options.has("file") ? read_table(options, invocation, inputs.standard_input(), answer)
                            : read_library(options, invocation, answer);
    check_count(answer);
    answer.choice = resolve::choose(answer.question);
    if (options.has("picture")) {
        write_picture(options.get<std::string>("picture"), answer);
    }
    if (presentation.needs_json()) {
        presentation.add(resolve_json(answer));
    }
    presentation.finish(
        {}, [&] { return resolve_document(answer); },
        [&] { return trace_of("resolve", invocation, inputs.traces(), library); });
    return resolve::is_answered(answer.question, answer.choice) ? kDone : kNeedsAttention;
}

} // namespace cospot

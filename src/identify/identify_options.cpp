#include "identify/identify_options.h"

#include "options/candidate_options.h"
#include "options/input_options.h"
#include "options/table_options.h"
#include "report/report.h"

namespace cospot {

namespace {

namespace po = boost::program_options;

void add_second_column_options(CommandOptions &options) {
    options.add()("second-column", po::value<std::string>()->value_name("FILE"),
                  "the peaks of the same sample on a second column: paired by area and order")(
        "second-system", po::value<std::string>(),
        "its system")("second-ladder", po::value<std::string>(), "the ladder run on it")(
        "second-hold-up", po::value<double>(), "its hold-up time in min");
}

/// The second column has its own system, ladder and hold-up time; all else holds for both.
void read_second_column(const CommandOptions &options, IdentifyOptions &asked) {
    asked.second_file = options.text("second-column");
    for (const char *option : {"second-system", "second-ladder", "second-hold-up"}) {
        if (!asked.second_file && options.has(option)) {
            throw bad_option(option, "no --second-column", "--second-column FILE as well");
        }
    }
    if (!asked.second_file) {
        return;
    }
    if (asked.files.size() > 1) {
        throw bad_option("second-column", "several files", "the one FILE of the first column");
    }
    if (!options.has("second-system")) {
        throw bad_option("second-column", "no --second-system", "--second-system NAME as well");
    }
    asked.second = asked.input;
    asked.second.system = options.text("second-system");
    asked.second.ladder_file = options.text("second-ladder");
    asked.second.hold_up_min = options.positive("second-hold-up");
    asked.second.reference.peak.reset();
}

} // namespace

CommandOptions identify_options() {
    CommandOptions options(
        "cospot [--library FILE] [--json] identify FILE... [options]",
        "Ranks the library's compounds for each spot or peak of FILE, with the probability that\n"
        "it is none of them. FILE (or - for standard input) is one of\n"
        "  plates:         lane,label,spot,distance_mm,front_mm,role; also plate, uv254,\n"
        "                  stain and stained (yes or no); needs --system\n"
        "  chromatograms:  peak,tR,area; also run, date, compound and role (sample or\n"
        "                  standard); needs --system\n"
        "  a long table:   sample,feature,system,quantity,value,uncertainty; also as for\n"
        "                  plates, and molar_mass, formula\n"
        "A front that is given once holds for its plate; Rf may stand for both distances.\n"
        "Headers may say another unit: distance (cm), tR (s).");
    add_input_options(options);
    add_partial_option(options);
    options.add()("explain", "why each candidate has its probability, and what to measure next")(
        "no-recalibration", "probabilities as computed, whatever prove found")(
        "no-correction", "do not look for how the run lies against the library")(
        "sample", po::value<std::string>(), "name of a chromatogram's sample (else its file's)")(
        "prior", po::value<std::string>(), "table compound, weight of suspected compounds")(
        "top", po::value<int>()->default_value(10), "most candidates listed for a feature");
    add_second_column_options(options);
    add_candidate_options(options);
    options.positional("file", -1, "what to identify");
    add_report_option(options);
    add_sheets_option(options);
    return options;
}

IdentifyOptions read_identify_options(const CommandOptions &options, const Invocation &invocation) {
    if (!options.has("file")) {
        throw bad_usage("no file", "a FILE to identify, or -");
    }
    IdentifyOptions asked;
    asked.files = options.texts("file");
    asked.input = input_settings(options, invocation);
    asked.prior = options.text("prior");
    asked.also = also_file(options);
    asked.prior_unlisted = prior_unlisted(options);
    asked.learns_unlisted = !options.is_given("prior-unlisted");
    asked.is_recalibrated = !options.has("no-recalibration");
    asked.search = options.has("no-correction") ? RunSearch::not_wanted : RunSearch::wanted;
    asked.top = top_of(options);
    asked.explains = options.has("explain");
    asked.has_sheets = wants_sheets(options);
    asked.input.sample = options.text("sample");
    asked.input.form.is_partial = options.has("partial");
    asked.input.is_one_of_several = asked.files.size() > 1;
    if (asked.input.sample && asked.input.is_one_of_several) {
        throw bad_option("sample", "several files", "one file with it: else they are named alike");
    }
    read_second_column(options, asked);
    return asked;
}

} // namespace cospot

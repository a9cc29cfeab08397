#include "purity/purity_options.h"

#include "options/candidate_options.h"
#include "options/command.h"
#include "options/input_options.h"
#include "options/table_options.h"
#include "readers/input_file.h"
#include "readers/purity_rules.h"
#include "report/presentation.h"
#include "shared/text.h"

namespace cospot {

namespace {

purity::Limits limits_in(const CommandOptions &options, std::istream &standard_input) {
    purity::Limits limits;
    limits.dose_mg = options.positive("dose-mg-per-day");
    limits.detection_percent = options.positive("detection-limit-percent", 100.0);
    if (options.has("rules")) {
        InputFile file(options.get<std::string>("rules"), standard_input);
        limits.rules = read_purity_rules(file.read_all(), file.name());
    } else if (limits.dose_mg) {
        limits.rules = guideline_rules(options.get<std::string>("for"));
    }
    if (needs_dose(limits.rules) && !limits.dose_mg) {
        throw bad_usage("no --dose-mg-per-day",
                        "the highest daily dose: thresholds of these rules depend on it");
    }
    return limits;
}

const purity::Detector *detector_in(const CommandOptions &options) {
    if (!options.has("detector")) {
        return nullptr;
    }
    const auto &name = options.get<std::string>("detector");
    const purity::Detector *detector = purity::find_detector(name);
    if (detector == nullptr) {
        throw bad_option("detector", in_quotes(name),
                         purity::detector_names({}) + "; of others nothing is said");
    }
    return detector;
}

/// The blank is another run: the sample's ladder and hold-up time do not hold for it.
void read_blank_options(const CommandOptions &options, PurityOptions &asked) {
    asked.blank_file = options.text("blank");
    for (const char *option : {"blank-ladder", "blank-hold-up"}) {
        if (!asked.blank_file && options.has(option)) {
            throw bad_option(option, "no --blank", "--blank FILE as well");
        }
    }
    asked.blank_settings = asked.settings;
    asked.blank_settings.is_blank = true;
    asked.blank_settings.ladder_file = options.text("blank-ladder");
    asked.blank_settings.hold_up_min = options.positive("blank-hold-up");
    asked.blank_settings.reference.peak.reset();
}

/// Limits of impurities are in per cent, those of residual solvents in ppm.
void check_solvent_options(const CommandOptions &options, bool asks_solvents) {
    const std::vector<const char *> wrong =
        asks_solvents ? std::vector{"rules", "for", "detection-limit-percent"}
                      : std::vector{"detection-limit-ppm"};
    for (const char *option : wrong) {
        if (options.is_given(option)) {
            throw bad_option(option,
                             asks_solvents ? "--residual-solvents" : "impurities in per cent",
                             asks_solvents ? "one of them: residual solvents have limits in ppm"
                                           : "--residual-solvents as well");
        }
    }
}

} // namespace

void add_purity_options(CommandOptions &options) {
    namespace po = boost::program_options;
    using Texts = std::vector<std::string>;
    options.add()("declared", po::value<std::string>(), "what the sample is declared to be")(
        "expected", po::value<Texts>()->composing(),
        "an impurity that may be in it; repeat it, or give a file with one name a line")(
        "confirmed", po::value<Texts>()->composing(),
        "a compound whose identity in these samples you confirmed with a reference standard or an "
        "independent method; repeat it, or give a file with one name a line")(
        "dose-mg-per-day", po::value<double>(),
        "highest daily dose of the declared compound: the guideline's thresholds for it")(
        "for", po::value<std::string>()->default_value("substance"),
        "whose guideline: substance (new substances) or product (degradation)")(
        "rules", po::value<std::string>(), "rules of your own instead (JSON, see README)")(
        "residual-solvents",
        "judge the residual solvents of the declared compound instead: peaks with a column ppm")(
        "detection-limit-ppm", po::value<double>(), "below it no residual solvent is seen")(
        "blank", po::value<std::string>(), "what a blank shows on the same system")(
        "blank-ladder", po::value<std::string>(), "the ladder run with the blank")(
        "blank-hold-up", po::value<double>(), "the blank's own hold-up time in min")(
        "detector", po::value<std::string>(),
        ("says what it cannot see: " + purity::detector_names({})).c_str())(
        "detection-limit-percent", po::value<double>(), "below it nothing is seen")(
        "sample", po::value<std::string>(), "the one to judge, where a file holds several");
    add_candidate_options(options);
    add_input_options(options);
    add_partial_option(options);
    add_report_option(options);
    add_sheets_option(options);
    options.positional("file", -1, "one sample a file");
}

PurityOptions purity_options(const CommandOptions &options, const Invocation &invocation,
                             std::istream &standard_input) {
    PurityOptions asked;
    asked.files = options.texts("file");
    asked.sample = options.text("sample");
    asked.asks_solvents = options.has("residual-solvents");
    check_solvent_options(options, asked.asks_solvents);
    asked.detection_ppm = options.positive("detection-limit-ppm");
    if (asked.asks_solvents) {
        asked.limits.dose_mg = options.positive("dose-mg-per-day");
    } else {
        asked.limits = limits_in(options, standard_input);
    }
    asked.detector = detector_in(options);
    asked.prior_unlisted = prior_unlisted(options);
    asked.learns_unlisted = !options.is_given("prior-unlisted");
    asked.also_file = also_file(options);
    asked.settings = input_settings(options, invocation);
    asked.settings.form.is_partial = options.has("partial");
    asked.settings.is_one_of_several = asked.files.size() > 1;
    asked.settings.names_are_standards = false; // data systems name all peaks that they know
    asked.settings.may_stand_alone = false;
    asked.has_sheets = wants_sheets(options);
    read_blank_options(options, asked);
    return asked;
}

} // namespace cospot

#include "input_options.h"

#include "shared/error.h"

#include <fmt/format.h>

namespace cospot {

namespace {

namespace po = boost::program_options;

double positive_option(const CommandOptions &options, const char *name) {
    const double value = options.get<double>(name);
    if (!(value > 0.0 && value < 1e6)) {
        throw InputError({"command line", 0, ""}, fmt::format("--{} {}", name, value),
                         "a number above 0");
    }
    return value;
}

} // namespace

void add_input_options(CommandOptions &options) {
    options.add()("system", po::value<std::string>(), "system of a plate or chromatogram")(
        "ladder", po::value<std::string>(), "ladder of a chromatogram: carbon,tR or standard,tR")(
        "hold-up", po::value<double>(), "hold-up time in min (else estimated from the ladder)")(
        "ladder-gaps", "interpolate across missing members of the ladder")(
        "extrapolate", "give indices outside the ladder too, marked")(
        "reading-error-mm", po::value<double>()->default_value(0.5, "0.5"),
        "standard uncertainty of a distance")("time-error-min",
                                              po::value<double>()->default_value(0.005, "0.005"),
                                              "standard uncertainty of a retention time");
}

InputSettings input_settings(const CommandOptions &options) {
    InputSettings settings;
    if (options.has("system")) {
        settings.system = options.get<std::string>("system");
    }
    if (options.has("ladder")) {
        settings.ladder_file = options.get<std::string>("ladder");
    }
    if (options.has("hold-up")) {
        settings.hold_up_min = positive_option(options, "hold-up");
    }
    settings.ladder_gaps = options.has("ladder-gaps");
    settings.extrapolate = options.has("extrapolate");
    settings.reading_error_mm = positive_option(options, "reading-error-mm");
    settings.time_error_min = positive_option(options, "time-error-min");
    return settings;
}

} // namespace cospot

#include "options/input_options.h"

#include "options/photo_options.h"
#include "options/table_options.h"
#include "options/trace_options.h"
#include "quantities/plate.h"

#include <utility>

namespace cospot {

namespace {

namespace po = boost::program_options;

} // namespace

void add_input_options(CommandOptions &options) {
    add_map_option(options);
    add_ladder_map_option(options);
    add_trace_options(options);
    add_photo_options(options);
    options.add()("system", po::value<std::string>(), "system of a plate or chromatogram")(
        "standards", po::value<std::vector<std::string>>()->value_name("NAME,NAME,..."),
        "labels of a plate's lanes that are standards, where no column role says so; a name with "
        "a comma stands alone, repeat the option")(
        "ladder", po::value<std::string>(), "ladder of a chromatogram: carbon,tR or standard,tR")(
        "hold-up", po::value<double>(), "hold-up time in min (else estimated from the ladder)")(
        "reference-peak", po::value<std::string>(),
        "peak of the reference compound that the system names (else the column compound tells)")(
        "ladder-gaps", "interpolate across missing members of the ladder")(
        "extrapolate", "give indices outside the ladder too, marked")(
        "reading-error-mm",
        po::value<double>()->default_value(quantities::kRulerReadingError_mm, "0.5"),
        "standard uncertainty of a distance")("time-error-min",
                                              po::value<double>()->default_value(0.005, "0.005"),
                                              "standard uncertainty of a retention time");
}

InputSettings input_settings(const CommandOptions &options, const Invocation &invocation) {
    InputSettings settings;
    GivenColumns columns = columns_of(options, invocation);
    settings.form.aliases = std::move(columns.of_tables);
    settings.form.standards = options.texts("standards");
    settings.ladder_aliases = std::move(columns.of_ladder);
    settings.integration = integration_settings(options);
    settings.photo = photo_settings(options);
    settings.form.stain = settings.photo.stain;
    settings.system = options.text("system");
    settings.ladder_file = options.text("ladder");
    settings.hold_up_min = options.positive("hold-up");
    settings.reference.peak = options.text("reference-peak");
    settings.ladder_gaps = options.has("ladder-gaps");
    settings.extrapolate = options.has("extrapolate");
    settings.reading_error_mm = options.positive("reading-error-mm").value();
    settings.time_error_min = options.positive("time-error-min").value();
    return settings;
}

} // namespace cospot

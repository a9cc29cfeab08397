#include "integration/photographed_plate.h"
#include "options/command.h"
#include "options/options.h"
#include "options/photo_options.h"
#include "photo/photo_document.h"
#include "photo/photo_json.h"
#include "readers/input_file.h"
#include "report/presentation.h"
#include "report/trace.h"

#include <algorithm>
#include <string>
#include <vector>

namespace cospot {

namespace {

/// Spots whose R_F cannot be told, or is not what it seems, want a look.
bool needs_look(const PhotographedPlate &plate) {
    return plate.spots.empty() ||
           std::any_of(plate.spots.begin(), plate.spots.end(), [](const PhotographedSpot &spot) {
               return !spot.rf || spot.found.at_edge || spot.found.crooked_front;
           });
}

} // namespace

int run_photo(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--json] photo FILE [options]",
        "Finds the spots of a developed plate in its photo (JPEG or PNG). Take it from 25 cm or\n"
        "more, with the whole plate in it and the start line below. All verbs that take a plate\n"
        "take a photo with the same options. Exit code 1 where a spot wants a look.");
    add_photo_options(options);
    add_output_option(options);
    add_report_option(options);
    options.positional("file", 1, "a photo (or -)");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    if (!options.has("file")) {
        throw bad_usage("no file", "the FILE of a photo, or -");
    }
    Presentation presentation(invocation, options);
    TracedInputs inputs(presentation.has_report() ? input_names(options, {"second-photo"})
                                                  : std::vector<std::string>{},
                        invocation.in);
    const PhotoSettings settings = photo_settings(options);
    InputFile file(options.texts("file").front(), inputs.standard_input());
    const PhotographedPlate plate = read_photo(file.stream(), file.name(), settings);
    if (presentation.needs_json()) {
        for (Json &object : photo_json(plate, settings)) {
            presentation.add(std::move(object));
        }
    }
    presentation.finish(
        plate.notes, [&] { return photo_document(plate, settings); },
        [&] { return trace_of("photo", invocation, inputs.traces(), LibraryUse::none); });
    return needs_look(plate) ? kNeedsAttention : kDone;
}

} // namespace cospot

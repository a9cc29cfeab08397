#include "integration/integration.h"
#include "options/command.h"
#include "options/options.h"
#include "options/trace_options.h"
#include "peaks/peaks_document.h"
#include "peaks/peaks_json.h"
#include "readers/input_file.h"
#include "report/presentation.h"
#include "report/trace.h"
#include "shared/text.h"

#include <string>
#include <vector>

namespace cospot {

namespace {

/// A trace that was asked for by name needs no look, but peaks that are not whole do.
bool needs_look(const Integration &integration) {
    for (const signal::FoundPeak &peak : integration.found.peaks) {
        if (peak.is_saturated || peak.is_cut_off) {
            return true;
        }
    }
    return integration.found.peaks.empty();
}

} // namespace

int run_peaks(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--json] peaks FILE [options]",
        "Finds and measures the peaks of a recorded trace: ASTM E1947 or E2077 (netCDF),\n"
        "mzML 1.1, JCAMP-DX, or text with two or more columns of numbers. All verbs that\n"
        "take a chromatogram take a trace with the same options. Exit code 1 where no\n"
        "peak is found, or one is cut off or has a flat top.");
    add_trace_options(options);
    add_output_option(options);
    add_report_option(options);
    options.positional("file", 1, "a trace (or -)");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    if (!options.has("file")) {
        throw bad_usage("no file", "the FILE of a trace, or -");
    }
    Presentation presentation(invocation, options);
    TracedInputs inputs(presentation.has_report() ? input_names(options, {"minus"})
                                                  : std::vector<std::string>{},
                        invocation.in);
    const IntegrationSettings settings = integration_settings(options);
    InputFile file(options.texts("file").front(), inputs.standard_input());
    const Integration integration = integrate(file.stream(), file.name(), settings);
    if (presentation.needs_json()) {
        for (Json &object : peaks_json(integration, settings)) {
            presentation.add(std::move(object));
        }
    }
    presentation.finish(
        integration.notes, [&] { return peaks_document(integration, settings); },
        [&] { return trace_of("peaks", invocation, inputs.traces(), LibraryUse::none); });
    return needs_look(integration) ? kNeedsAttention : kDone;
}

} // namespace cospot

#include "options/command.h"
#include "options/options.h"
#include "predict/predict_document.h"
#include "predict/predict_json.h"
#include "predict/predictions.h"
#include "report/presentation.h"
#include "shared/error.h"

#include <string>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;

PredictOptions predict_options_of(const CommandOptions &options) {
    if (!options.has("target")) {
        throw bad_usage("no target", "a SMILES, a compound of the library, or a file");
    }
    if (options.has("structure-only") && options.has("system")) {
        throw bad_usage("--structure-only with --system",
                        "one of them: without retention no system is looked at");
    }
    // A report names the checksum of the library, which stays as it is.
    return {options.texts("target"), options.texts("system"), !options.has("structure-only"),
            !options.has("report")};
}

} // namespace

int run_predict(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] predict TARGET... [options]",
        "Describes structures and says what retention to expect of them on the library's\n"
        "systems: from their own values there, from their values on other systems, or from\n"
        "structure, with the interval that holds nine of ten new values.\n"
        "TARGET is a SMILES, a compound of the library, or a file (.smi, .sdf, or a table\n"
        "with the columns compound,smiles).");
    options.add()("system", po::value<std::vector<std::string>>(),
                  "this system only (may be repeated)")(
        "structure-only", "only what the structures say, at once; no retention");
    add_report_option(options);
    options.positional("target", -1, "structures");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    const PredictOptions asked = predict_options_of(options);
    Presentation presentation(invocation, options);
    TracedInputs inputs(presentation.has_report() ? input_names(options, {}, "target")
                                                  : std::vector<std::string>{},
                        invocation.in);
    const Predictions found = predictions(asked, invocation, inputs.standard_input());
    for (const CompoundProfile &profile : found.profiles) {
        presentation.add(predict_json(profile));
    }
    presentation.finish(
        found.notes, [&] { return predict_document(found); },
        [&] { return trace_of("predict", invocation, inputs.traces()); });
    return kDone;
}

} // namespace cospot

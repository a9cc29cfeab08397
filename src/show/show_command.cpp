#include "list/library_json.h"
#include "options/command.h"
#include "options/open_library.h"
#include "options/options.h"
#include "options/selection_options.h"
#include "report/presentation.h"
#include "show/holdings.h"
#include "show/show_document.h"

#include <vector>

namespace cospot {

namespace {

Holdings read_holdings(const CommandOptions &options, const Invocation &invocation) {
    if (!options.has("subject")) {
        throw bad_usage("no name", "the NAME of a compound, system or column");
    }
    library::Database database = open_library(invocation, library::Access::read);
    return holdings(database, {options.texts("subject").front(),
                               options.has("all") ? library::Visit::all : library::Visit::held,
                               value_filter(options, database, invocation.err)});
}

/// The thing itself, then its values.
void add_json(Presentation &presentation, const Holdings &found) {
    const auto add_values = [&](const std::vector<library::MeasurementRecord> &values) {
        for (const library::MeasurementRecord &value : values) {
            presentation.add(library_json(value, found.which));
        }
    };
    if (found.system) {
        presentation.add(library_json(found.system->system, found.system->counts));
        add_values(found.system->values);
    }
    if (const auto &held = found.compound) {
        presentation.add(library_json(held->compound, held->counts, held->description));
        add_values(held->values);
    }
    if (found.column) {
        presentation.add(library_json(found.column->column, found.column->bands.size()));
        for (const library::ColumnBand &band : found.column->bands) {
            presentation.add(library_json(band));
        }
    }
}

} // namespace

int run_show(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] show NAME [options]",
        "Shows all that the library holds on the compound (by name, registry number or InChIKey),\n"
        "system or packed column NAME; the options narrow the values of the first two.");
    options.add()("all", "retired and superseded values too, with their ids, who and when");
    add_selection_options(options);
    add_report_option(options);
    options.positional("subject", 1, "compound, system or column");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    Presentation presentation(invocation, options);
    const Holdings found = read_holdings(options, invocation);
    if (presentation.needs_json()) {
        add_json(presentation, found);
    }
    presentation.finish(
        {}, [&] { return show_document(found); }, [&] { return trace_of("show", invocation, {}); });
    return kDone;
}

} // namespace cospot

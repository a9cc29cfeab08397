#include "list/library_json.h"
#include "options/command.h"
#include "options/open_library.h"
#include "options/options.h"
#include "options/selection_options.h"
#include "report/presentation.h"
#include "show/holdings.h"
#include "show/show_document.h"

#include <utility>

namespace cospot {

namespace {

Holdings read_holdings(const CommandOptions &options, const Invocation &invocation) {
    if (!options.has("subject")) {
        throw bad_usage("no name", "the NAME of a compound, system or column");
    }
    library::Database database = open_library(invocation, library::Access::read);
    return holdings(database,
                    {.name = options.texts("subject").front(),
                     .which = options.has("all") ? library::Visit::all : library::Visit::held,
                     .selection = narrowed_selection(options, database, invocation.err),
                     .top = count_option(options, "top", 1)});
}

/// The thing itself with how many of its values are asked for, then those that are listed.
void add_json(Presentation &presentation, const Holdings &found) {
    const auto add = [&](Json thing, const HeldValues &values) {
        thing["values_asked_for"] = values.counts.all;
        presentation.add(std::move(thing));
        for (const library::MeasurementRecord &value : values.listed) {
            presentation.add(library_json(value, found.which));
        }
    };
    if (found.system) {
        add(library_json(found.system->system, found.system->counts), found.system->values);
    }
    if (const auto &held = found.compound) {
        add(library_json(held->compound, held->counts, held->description), held->values);
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
    options.add()("all", "retired and superseded values too, with their ids, who and when")(
        "top", boost::program_options::value<int>(), "list at most so many values");
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

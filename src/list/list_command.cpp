#include "list/library_json.h"
#include "list/list_document.h"
#include "list/listing.h"
#include "options/command.h"
#include "options/options.h"
#include "options/selection_options.h"
#include "report/presentation.h"
#include "shared/text.h"

#include <string>
#include <variant>

namespace cospot {

namespace {

ListOptions list_options_of(const CommandOptions &options) {
    const std::string what = options.has("what") ? options.texts("what").front() : "compounds";
    if (what != "compounds" && what != "systems" && what != "columns") {
        throw bad_usage(in_quotes(what), "compounds, systems or columns");
    }
    ListOptions asked;
    if (what != "compounds") {
        asked.kind = what == "systems" ? ListOptions::Kind::systems : ListOptions::Kind::columns;
    }
    asked.selection = selection_of(options);
    asked.substructure = options.text("substructure");
    return asked;
}

Json json_of(const ListedCompound &listed) {
    return library_json(listed.compound, listed.counts);
}

Json json_of(const ListedSystem &listed) {
    return library_json(listed.system, listed.counts);
}

Json json_of(const ListedColumn &listed) {
    return library_json(listed.column, listed.bands);
}

} // namespace

int run_list(const Invocation &invocation) {
    CommandOptions options("cospot [--library FILE] [--json] list [compounds|systems|columns]",
                           "Lists what the library holds, compounds unless told otherwise.");
    add_selection_options(options);
    add_report_option(options);
    options.positional("what", 1, "compounds, systems or columns");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    const ListOptions asked = list_options_of(options);
    Presentation presentation(invocation, options);
    const Listing found = listing(asked, invocation);
    if (presentation.needs_json()) {
        std::visit(
            [&](const auto &listed) {
                for (const auto &one : listed) {
                    presentation.add(json_of(one));
                }
            },
            found);
    }
    presentation.finish(
        {}, [&] { return list_document(found); }, [&] { return trace_of("list", invocation, {}); });
    return kDone;
}

} // namespace cospot

#include "list/library_json.h"
#include "list/list_document.h"
#include "list/listing.h"
#include "options/command.h"
#include "options/open_library.h"
#include "options/options.h"
#include "options/selection_options.h"
#include "report/presentation.h"
#include "shared/text.h"

#include <algorithm>
#include <array>
#include <string>
#include <utility>
#include <variant>

namespace cospot {

namespace {

namespace po = boost::program_options;

constexpr std::array kListed{std::pair{"compounds", ListQuestion::Kind::compounds},
                             std::pair{"systems", ListQuestion::Kind::systems},
                             std::pair{"columns", ListQuestion::Kind::columns},
                             std::pair{"sheets", ListQuestion::Kind::sheets}};

ListQuestion::Kind kind_of(const CommandOptions &options) {
    const std::string what = options.has("what") ? options.texts("what").front() : "compounds";
    const auto *const found = std::find_if(kListed.begin(), kListed.end(),
                                           [&](const auto &one) { return what == one.first; });
    if (found == kListed.end()) {
        throw bad_usage(in_quotes(what), "compounds, systems, columns or sheets");
    }
    return found->second;
}

Listing read_listing(const CommandOptions &options, const Invocation &invocation) {
    ListQuestion question{.kind = kind_of(options),
                          .selection = selection_of(options),
                          .page = {.skip = count_option(options, "skip", 0).value_or(0),
                                   .top = count_option(options, "top", 1)}};
    library::Database database = open_library(invocation, library::Access::read);
    if (question.kind == ListQuestion::Kind::compounds) {
        question.selection = narrowed_selection(options, database, invocation.err);
    }
    return listing(database, question);
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

Json json_of(const library::RememberedSheet &sheet) {
    return library_json(sheet);
}

/// Each with how many there are, where these are a page of them.
void add_json(Presentation &presentation, const Listing &found) {
    std::visit(
        [&](const auto &rows) {
            for (const auto &row : rows) {
                Json json = json_of(row);
                if (!found.page.is_whole()) {
                    json["of"] = found.found;
                }
                presentation.add(std::move(json));
            }
        },
        found.rows);
}

} // namespace

int run_list(const Invocation &invocation) {
    CommandOptions options(
        "cospot [--library FILE] [--json] list [compounds|systems|columns|sheets]",
        "Lists what the library holds, compounds unless told otherwise. Sheets are what it\n"
        "remembers of your tables (--as). Of systems, --name is part of a name or a phase.");
    add_selection_options(options);
    options.add()("top", po::value<int>(), "list at most so many")(
        "skip", po::value<int>(), "leave out so many at the beginning");
    add_report_option(options);
    options.positional("what", 1, "compounds, systems, columns or sheets");
    if (!options.parse(invocation.arguments, invocation.out)) {
        return kDone;
    }
    Presentation presentation(invocation, options);
    const Listing found = read_listing(options, invocation);
    if (presentation.needs_json()) {
        add_json(presentation, found);
    }
    presentation.finish(
        {}, [&] { return list_document(found); }, [&] { return trace_of("list", invocation, {}); });
    return kDone;
}

} // namespace cospot

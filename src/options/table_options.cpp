#include "options/table_options.h"

#include "library/changes.h"
#include "library/sheets.h"
#include "options/open_library.h"
#include "readers/column_alias.h"
#include "readers/measurement_table.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <ostream>
#include <string>

namespace cospot {

void add_map_option(CommandOptions &options) {
    options.add()("map", boost::program_options::value<std::vector<std::string>>()->composing(),
                  "COLUMN=HEADER: what your table calls a column, e.g. compound=Name or "
                  "distance_cm=Weg, or a word in its cells, e.g. yes=ja; repeat it")(
        "as", boost::program_options::value<std::string>(),
        "name under which the library remembers --map for the next time; with --map again it "
        "remembers that, too");
}

void add_partial_option(CommandOptions &options) {
    options.add()("partial",
                  "leave out lanes, runs and samples with faulty rows, and judge the others");
}

namespace {

std::vector<ColumnAlias> given_aliases(const CommandOptions &options) {
    std::vector<ColumnAlias> aliases;
    for (const std::string &text : options.texts("map")) {
        const ColumnAlias alias = parse_column_alias(text, at_option("map"));
        for (const ColumnAlias &before : aliases) {
            if (equal_ignoring_case(before.column, alias.column) &&
                (!is_word_of_cells(alias.column) ||
                 equal_ignoring_case(trimmed(before.header), trimmed(alias.header)))) {
                throw bad_option("map", in_quotes(text), "each column once");
            }
        }
        aliases.push_back(alias);
    }
    return aliases;
}

void remember(const std::string &sheet, const std::vector<ColumnAlias> &aliases,
              const Invocation &invocation) {
    library::Database database = open_library(invocation, library::Access::write);
    library::Transaction transaction(database);
    library::keep_sheet(database, sheet, aliases,
                        library::begin_change(database, std::string(invocation.verb),
                                              "columns of the sheet " + in_quotes(sheet)));
    transaction.commit();
    invocation.has_changed = true;
    invocation.err << fmt::format("The library remembers these columns: --as {} next time\n",
                                  in_quotes(sheet));
}

/// What is given now, and of what the library remembers the other columns.
std::vector<ColumnAlias> with_remembered(std::vector<ColumnAlias> given, const std::string &sheet,
                                         const Invocation &invocation) {
    library::Database database = open_library(invocation, library::Access::read);
    for (const ColumnAlias &before : library::columns_of_sheet(database, sheet)) {
        const bool is_given =
            std::any_of(given.begin(), given.end(), [&](const ColumnAlias &alias) {
                return equal_ignoring_case(alias.column, before.column) &&
                       (!is_word_of_cells(alias.column) ||
                        equal_ignoring_case(trimmed(alias.header), trimmed(before.header)));
            });
        if (!is_given) {
            given.push_back(before);
        }
    }
    if (given.empty()) {
        std::string known;
        for (const std::string &name : library::sheet_names(database)) {
            known += (known.empty() ? ": " : ", ") + in_quotes(name);
        }
        throw bad_option("as", in_quotes(sheet),
                         "--map COLUMN=HEADER with it the first time, or a sheet that the library "
                         "remembers" +
                             (known.empty() ? " (there is none yet)" : known));
    }
    return given;
}

/// Says of each --map that no table of the call had anything for it.
void tell_unsettled(const std::vector<ColumnAlias> &given, const Invocation &invocation) {
    for (const ColumnAlias &alias : given) {
        if (!*alias.is_settled) {
            invocation.err << fmt::format(
                "--map {}={} had no effect: {} {}\n", alias.column, alias.header,
                is_word_of_cells(alias.column) ? "no cell that is read says"
                                               : "no table has a column",
                in_quotes(alias.header));
        }
    }
}

} // namespace

std::vector<ColumnAlias> aliases_of(const CommandOptions &options, const Invocation &invocation) {
    const std::vector<ColumnAlias> given = given_aliases(options);
    if (!given.empty()) {
        invocation.afterwards.emplace_back(
            [given, invocation] { tell_unsettled(given, invocation); });
    }
    const auto sheet = options.text("as");
    if (!sheet) {
        return given;
    }
    check_visible(*sheet, at_option("as"));
    const std::vector<ColumnAlias> all = with_remembered(given, *sheet, invocation);
    if (!given.empty() && !options.has("dry-run")) {
        invocation.afterwards.emplace_back(
            [sheet = *sheet, all, invocation] { remember(sheet, all, invocation); });
    }
    return all;
}

} // namespace cospot

#include "options/table_options.h"

#include "library/changes.h"
#include "library/sheets.h"
#include "options/open_library.h"
#include "readers/column_alias.h"
#include "readers/measurement_table.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <ostream>
#include <string>
#include <string_view>
#include <utility>

namespace cospot {

void add_map_option(CommandOptions &options) {
    options.add()("map", boost::program_options::value<std::vector<std::string>>()->composing(),
                  "COLUMN=HEADER: what your table calls a column, e.g. compound=Name or "
                  "distance_cm=Weg, or a word in its cells, e.g. yes=ja; repeat it")(
        "as", boost::program_options::value<std::string>(),
        "name under which the library remembers --map for the next time; with --map again it "
        "remembers that, too");
}

void add_ladder_map_option(CommandOptions &options) {
    options.add()("ladder-map",
                  boost::program_options::value<std::vector<std::string>>()->composing(),
                  "COLUMN=HEADER of the ladder alone, e.g. carbon=Alkane; repeat it");
}

void add_partial_option(CommandOptions &options) {
    options.add()("partial",
                  "leave out lanes, runs and samples with faulty rows, and judge the others");
}

namespace {

/// What marks columns of the ladder among those that are remembered.
constexpr std::string_view kOfLadder = "ladder:";

void add_given(const CommandOptions &options, const char *option, std::string_view mark,
               std::vector<ColumnAlias> &aliases) {
    for (const std::string &text : options.texts(option)) {
        ColumnAlias alias = parse_column_alias(text, at_option(option));
        alias.column.insert(0, mark);
        for (const ColumnAlias &before : aliases) {
            if (equal_ignoring_case(before.column, alias.column) &&
                equal_ignoring_case(trimmed(before.header), trimmed(alias.header))) {
                throw bad_option(option, in_quotes(text), "each header once for a column");
            }
        }
        aliases.push_back(std::move(alias));
    }
}

std::vector<ColumnAlias> given_aliases(const CommandOptions &options) {
    std::vector<ColumnAlias> aliases;
    add_given(options, "map", "", aliases);
    add_given(options, "ladder-map", kOfLadder, aliases);
    return aliases;
}

/// Those of the ladder apart.
GivenColumns parted(const std::vector<ColumnAlias> &all) {
    GivenColumns columns;
    for (const ColumnAlias &alias : all) {
        if (alias.column.starts_with(kOfLadder)) {
            columns.of_ladder.push_back(alias);
            columns.of_ladder.back().column.erase(0, kOfLadder.size());
        } else {
            columns.of_tables.push_back(alias);
        }
    }
    const std::vector<ColumnAlias> own = columns.of_ladder;
    std::copy_if(columns.of_tables.begin(), columns.of_tables.end(),
                 std::back_inserter(columns.of_ladder), [&](const ColumnAlias &alias) {
                     return std::none_of(own.begin(), own.end(), [&](const ColumnAlias &one) {
                         return equal_ignoring_case(one.column, alias.column);
                     });
                 });
    return columns;
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
std::vector<ColumnAlias> with_remembered(const std::vector<ColumnAlias> &given,
                                         const std::string &sheet, const Invocation &invocation) {
    library::Database database = open_library(invocation, library::Access::read);
    std::vector<ColumnAlias> all = given;
    for (const ColumnAlias &before : library::columns_of_sheet(database, sheet)) {
        const bool is_given =
            std::any_of(given.begin(), given.end(), [&](const ColumnAlias &alias) {
                return equal_ignoring_case(alias.column, before.column) &&
                       (!is_word_of_cells(alias.column) ||
                        equal_ignoring_case(trimmed(alias.header), trimmed(before.header)));
            });
        if (!is_given) {
            all.push_back(before);
        }
    }
    if (all.empty()) {
        const std::string known = library::listed_sheet_names(database);
        throw bad_option("as", in_quotes(sheet),
                         "--map COLUMN=HEADER with it the first time, or a sheet that the library "
                         "remembers" +
                             (known.empty() ? " (there is none yet)" : known));
    }
    return all;
}

/// Says of each --map and --ladder-map that no table of the call had anything for it.
void tell_unsettled(const std::vector<ColumnAlias> &given, const Invocation &invocation) {
    for (const ColumnAlias &alias : given) {
        if (!*alias.is_settled) {
            const bool is_of_ladder = alias.column.starts_with(kOfLadder);
            invocation.err << fmt::format(
                "{} {}={} had no effect: {} {}\n", is_of_ladder ? "--ladder-map" : "--map",
                alias.column.substr(is_of_ladder ? kOfLadder.size() : 0), alias.header,
                is_word_of_cells(alias.column) ? "no cell that is read says"
                                               : "no table has a column",
                in_quotes(alias.header));
        }
    }
}

} // namespace

GivenColumns columns_of(const CommandOptions &options, const Invocation &invocation) {
    const std::vector<ColumnAlias> given = given_aliases(options);
    if (!given.empty()) {
        invocation.afterwards.emplace_back(
            [given, invocation] { tell_unsettled(given, invocation); });
    }
    const auto sheet = options.text("as");
    if (!sheet) {
        return parted(given);
    }
    check_visible(*sheet, at_option("as"));
    const std::vector<ColumnAlias> all = with_remembered(given, *sheet, invocation);
    if (!given.empty() && !options.has("dry-run")) {
        invocation.afterwards.emplace_back(
            [sheet = *sheet, all, invocation] { remember(sheet, all, invocation); });
    }
    return parted(all);
}

std::vector<ColumnAlias> aliases_of(const CommandOptions &options, const Invocation &invocation) {
    return columns_of(options, invocation).of_tables;
}

} // namespace cospot

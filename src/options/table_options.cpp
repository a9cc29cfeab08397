#include "options/table_options.h"

#include "readers/column_alias.h"
#include "shared/text.h"

#include <string>

namespace cospot {

void add_map_option(CommandOptions &options) {
    options.add()("map", boost::program_options::value<std::vector<std::string>>()->composing(),
                  "COLUMN=HEADER: what your table calls a column, e.g. compound=Name or "
                  "distance_cm=Weg; repeat it");
}

void add_partial_option(CommandOptions &options) {
    options.add()("partial",
                  "leave out lanes, runs and samples with faulty rows, and judge the others");
}

std::vector<ColumnAlias> aliases_of(const CommandOptions &options) {
    std::vector<ColumnAlias> aliases;
    for (const std::string &text : options.texts("map")) {
        const ColumnAlias alias = parse_column_alias(text, at_option("map"));
        for (const ColumnAlias &before : aliases) {
            if (equal_ignoring_case(before.column, alias.column)) {
                throw bad_option("map", in_quotes(text), "each column once");
            }
        }
        aliases.push_back(alias);
    }
    return aliases;
}

} // namespace cospot

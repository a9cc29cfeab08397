#include "options/compound_options.h"

#include "library/names.h"
#include "readers/input_file.h"
#include "shared/line_reader.h"
#include "shared/text.h"

#include <istream>

namespace cospot {

namespace {

struct AskedName {
    std::string name;
    Where where;
};

/// Names in a file, one a line; empty lines and a heading "compound" are left out.
std::vector<AskedName> names_in_file(const std::string &name, std::istream &standard_input) {
    InputFile file(name, standard_input);
    std::vector<AskedName> names;
    LineReader lines(file.stream(), file.name(), "one name a line, in UTF-8");
    for (std::string line; lines.next(line);) {
        const std::string_view text = trimmed(line);
        if (!text.empty() && !equal_ignoring_case(text, "compound")) {
            names.push_back({std::string(text), {file.name(), lines.line(), ""}});
        }
    }
    if (names.empty()) {
        throw InputError({file.name(), 0, ""}, "no name", "one name a line");
    }
    return names;
}

} // namespace

std::vector<library::Compound> named_compounds(const CommandOptions &options, const char *option,
                                               library::Database &database,
                                               std::istream &standard_input) {
    std::vector<library::Compound> compounds;
    for (const std::string &text : options.texts(option)) {
        const bool is_file = is_input(text) && library::find_by_name(database, text).empty();
        if (!is_file) {
            compounds.push_back(compound_in_use(database, text, at_option(option)));
            continue;
        }
        for (const AskedName &asked : names_in_file(text, standard_input)) {
            compounds.push_back(compound_in_use(database, asked.name, asked.where));
        }
    }
    return compounds;
}

} // namespace cospot

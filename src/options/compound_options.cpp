#include "options/compound_options.h"

#include "library/names.h"
#include "readers/input_file.h"
#include "shared/text.h"

#include <istream>

namespace cospot {

namespace {

using Texts = std::vector<std::string>;

/// Names in a file, one a line; empty lines and a heading "compound" are left out.
Texts names_in_file(const std::string &name, std::istream &standard_input) {
    InputFile file(name, standard_input);
    Texts names;
    for (std::string line; std::getline(file.stream(), line);) {
        const std::string_view text = trimmed(line);
        if (!text.empty() && !equal_ignoring_case(text, "compound")) {
            names.emplace_back(text);
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
        for (const std::string &name :
             is_file ? names_in_file(text, standard_input) : Texts{text}) {
            compounds.push_back(compound_named(database, name, at_option(option)));
        }
    }
    return compounds;
}

} // namespace cospot

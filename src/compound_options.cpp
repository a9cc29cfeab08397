#include "compound_options.h"

#include "readers/input_file.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <filesystem>

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
    return names;
}

} // namespace

library::Compound compound_named(library::Database &database, const std::string &name,
                                 const std::string &option) {
    const auto compounds = library::find_by_name(database, name);
    if (compounds.size() == 1) {
        return compounds.front();
    }
    const Where where{"command line, --" + option, 0, ""};
    if (compounds.empty()) {
        throw InputError(where, in_quotes(name),
                         "a compound of the library (cospot list); if it is missing, measure its "
                         "standard and `cospot learn` it first");
    }
    throw InputError(where,
                     fmt::format("{}, a name of {} structures", in_quotes(name), compounds.size()),
                     "one compound, by its InChIKey (cospot show)");
}

std::vector<library::Compound> named_compounds(const CommandOptions &options, const char *option,
                                               library::Database &database,
                                               std::istream &standard_input) {
    std::vector<library::Compound> compounds;
    for (const std::string &text : options.has(option) ? options.get<Texts>(option) : Texts{}) {
        const bool is_file =
            library::find_by_name(database, text).empty() && std::filesystem::is_regular_file(text);
        for (const std::string &name :
             is_file ? names_in_file(text, standard_input) : Texts{text}) {
            compounds.push_back(compound_named(database, name, option));
        }
    }
    return compounds;
}

} // namespace cospot

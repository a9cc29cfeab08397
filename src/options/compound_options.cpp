#include "options/compound_options.h"

#include "library/names.h"
#include "library/near_names.h"
#include "readers/input_file.h"
#include "shared/line_reader.h"
#include "shared/text.h"

#include <istream>
#include <iterator>
#include <optional>
#include <string_view>
#include <utility>

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

std::vector<std::string_view> pieces_of(std::string_view text, char divider) {
    std::vector<std::string_view> pieces;
    std::size_t begin = 0;
    for (std::size_t end = 0; end != std::string_view::npos; begin = end + 1) {
        end = text.find(divider, begin);
        pieces.push_back(text.substr(begin, end - begin));
    }
    return pieces;
}

} // namespace

std::vector<library::Compound> compounds_in_list(const std::string &text, const char *option,
                                                 library::Database &database) {
    const char divider = text.find(';') != std::string::npos ? ';' : ',';
    const std::vector<std::string_view> pieces = pieces_of(text, divider);
    std::vector<library::Compound> compounds;
    for (std::size_t first = 0; first < pieces.size();) {
        std::optional<library::Compound> found;
        std::size_t last = divider == ',' ? pieces.size() : first + 1;
        for (; last > first && !found; --last) {
            const char *begin = pieces[first].data();
            const char *end = pieces[last - 1].data() + pieces[last - 1].size();
            const std::string name(trimmed({begin, static_cast<std::size_t>(end - begin)}));
            found = compound_if_named(database, name, at_option(option));
        }
        if (!found) {
            const std::string name(trimmed(pieces[first]));
            throw bad_option(option, in_quotes(name),
                             "compounds of the library (cospot list)" +
                                 did_you_mean(database, name, NameOf::compound));
        }
        check_in_use(database, *found, at_option(option));
        compounds.push_back(std::move(*found));
        first = last + 1;
    }
    return compounds;
}

std::vector<library::Compound> named_compounds(const CommandOptions &options, const char *option,
                                               library::Database &database,
                                               std::istream &standard_input) {
    std::vector<library::Compound> compounds;
    for (const std::string &text : options.texts(option)) {
        const bool is_file = is_input(text) && library::find_by_name(database, text).empty();
        if (!is_file) {
            const bool is_list = text.find_first_of(",;") != std::string::npos;
            auto listed = is_list ? compounds_in_list(text, option, database)
                                  : std::vector{compound_in_use(database, text, at_option(option))};
            std::move(listed.begin(), listed.end(), std::back_inserter(compounds));
            continue;
        }
        for (const AskedName &asked : names_in_file(text, standard_input)) {
            compounds.push_back(compound_in_use(database, asked.name, asked.where));
        }
    }
    return compounds;
}

} // namespace cospot

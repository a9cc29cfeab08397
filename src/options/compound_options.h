#pragma once

#include "library/compounds.h"
#include "options/options.h"

#include <iosfwd>
#include <string>
#include <vector>

namespace cospot {

/// The compounds of a list, divided by ';' or, where there is none, by ','. Names hold commas
/// ("1,8-cineole"): as many of the pieces between commas belong together as make a known name.
/// Throws InputError for a name that is not one compound's, or of one that is retired.
[[nodiscard]] std::vector<library::Compound>
compounds_in_list(const std::string &text, const char *option, library::Database &database);

/// The compounds that an option names, which may be given several times: each value is a list of
/// names in the library (`compounds_in_list`), or else a file with one name a line. Empty where the
/// option was not given. Throws InputError for a name that is not one compound's.
[[nodiscard]] std::vector<library::Compound> named_compounds(const CommandOptions &options,
                                                             const char *option,
                                                             library::Database &database,
                                                             std::istream &standard_input);

} // namespace cospot

#pragma once

#include "library/compounds.h"
#include "options/options.h"

#include <iosfwd>
#include <string>
#include <vector>

namespace cospot {

/// The compounds that an option names, which may be given several times: each value is a name in
/// the library, or else a file with one name a line. Empty where the option was not given. Throws
/// InputError for a name that is not one compound's.
[[nodiscard]] std::vector<library::Compound> named_compounds(const CommandOptions &options,
                                                             const char *option,
                                                             library::Database &database,
                                                             std::istream &standard_input);

} // namespace cospot

#pragma once

#include "library/compounds.h"
#include "library/systems.h"
#include "shared/error.h"

#include <string>

namespace cospot {

/// The one compound of the library that bears the name. Throws InputError at `where` if there is
/// none, or several.
[[nodiscard]] library::Compound compound_named(library::Database &database, const std::string &name,
                                               const Where &where);

/// The system of the library of that name. Throws InputError at `where` if there is none.
[[nodiscard]] library::System system_named(library::Database &database, const std::string &name,
                                           const Where &where);

} // namespace cospot

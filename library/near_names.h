#pragma once

#include "library/database.h"

#include <string>
#include <string_view>

namespace cospot {

/// What a name was looked for among.
enum class NameOf { compound, system, any }; ///< any: columns too

/// `; did you mean "eugenol"?` with up to three names of the library that are a few slips of the
/// keyboard away or hold the name as a part, the nearest first; empty where there are none. For the
/// end of what a message says was expected. Reads all names, so call it only where one was missed.
[[nodiscard]] std::string did_you_mean(library::Database &database, std::string_view name,
                                       NameOf kind);

} // namespace cospot

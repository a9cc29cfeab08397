#include "library/names.h"

#include "shared/text.h"

#include <fmt/format.h>

namespace cospot {

library::Compound compound_named(library::Database &database, const std::string &name,
                                 const Where &where) {
    const auto compounds = library::find_by_name(database, name);
    if (compounds.size() == 1) {
        return compounds.front();
    }
    if (compounds.empty()) {
        throw InputError(where, in_quotes(name),
                         "a compound of the library (cospot list); if it is missing, measure its "
                         "standard and `cospot learn` it first");
    }
    throw InputError(where,
                     fmt::format("{}, a name of {} structures", in_quotes(name), compounds.size()),
                     "one compound, by its InChIKey (cospot show)");
}

library::System system_named(library::Database &database, const std::string &name,
                             const Where &where) {
    const auto system = library::find_system(database, name);
    if (!system) {
        throw InputError(where, in_quotes(name),
                         "a system that the library holds (cospot list systems)");
    }
    return *system;
}

} // namespace cospot

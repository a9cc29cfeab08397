#pragma once

#include "library/compounds.h"
#include "library/systems.h"
#include "shared/error.h"

#include <optional>
#include <string>

namespace cospot {

/// The one compound of the library that bears the name, as `library::find_by_name` reads it;
/// nothing if there is none. Throws InputError at `where`, with all of them, if there are several;
/// the InChIKey names each exactly, even where another compound is called so.
[[nodiscard]] std::optional<library::Compound>
compound_if_named(library::Database &database, const std::string &name, const Where &where);

/// The same, but throws InputError at `where`, with near names, if there is none.
[[nodiscard]] library::Compound compound_named(library::Database &database, const std::string &name,
                                               const Where &where);

/// The same, but throws InputError at `where` for a compound that is retired: it is no candidate.
[[nodiscard]] library::Compound compound_in_use(library::Database &database,
                                                const std::string &name, const Where &where);

/// Throws InputError at `where` if the compound is retired.
void check_in_use(library::Database &database, const library::Compound &compound,
                  const Where &where);

/// Whether two names are equal but for their case, or the library has one compound for both.
[[nodiscard]] bool is_same_compound(library::Database &database, const std::string &a,
                                    const std::string &b);

/// "NAME (SMILES, InChIKey)", which tells a compound from others of its name.
[[nodiscard]] std::string exact_words(const library::Compound &compound);

/// The system of the library of that name, as `library::find_system` reads it. Throws InputError at
/// `where`, with near names, if there is none.
[[nodiscard]] library::System system_named(library::Database &database, const std::string &name,
                                           const Where &where);

} // namespace cospot

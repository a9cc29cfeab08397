#pragma once

#include "library/changes.h"
#include "library/compounds.h"
#include "library/database.h"
#include "library/descriptions.h"
#include "library/systems.h"
#include "shared/error.h"

#include <optional>
#include <string>
#include <vector>

namespace cospot::library {

/// What is to become of a compound or a system.
struct Rename {
    std::string name;     ///< by which it is known
    std::string new_name; ///< empty: it keeps its name
    std::string reason;   ///< may be empty where only the name changes
    Where where;          ///< of the name
    Where new_where;      ///< of the new name
};

/// A structure that takes the place of a wrong one.
struct CorrectedStructure {
    Compound compound; ///< its name and registry number are not looked at
    std::optional<Description> description;
    Where where;
};

struct RenamedCompound {
    Compound before;
    Compound now;
    std::optional<Compound> namesake{}; ///< in use, which the old name finds from now on
};

struct RenamedSystem {
    System before;
    System now;
};

/// Gives a compound another name, another structure, or both; one change. The old name stays a
/// synonym unless another compound in use has it, the old structure in the history; values,
/// response factors and registry number stay. What was fitted or predicted with the old structure
/// is gone. Throws InputError, with nothing changed, for a name that is no compound's or several's,
/// for a new name that something else has, for a structure that is another compound's, and where
/// nothing would change.
RenamedCompound rename_compound(Database &database, const Rename &wanted,
                                const std::optional<CorrectedStructure> &structure);

/// Gives a system another name; by the old one it is still found. Throws as `rename_compound` does.
RenamedSystem rename_system(Database &database, const Rename &wanted);

/// A structure that a compound had until a change corrected it.
struct FormerStructure {
    std::string inchikey;
    std::string smiles;
    std::string formula;
};

/// The oldest first.
[[nodiscard]] std::vector<FormerStructure> former_structures_of(Database &database,
                                                                CompoundId compound);

/// The compound that had this structure until it was corrected, if any.
[[nodiscard]] std::optional<Compound> formerly_of(Database &database, const std::string &inchikey);

/// The change that last took this structure away from the compound; nothing where none did.
[[nodiscard]] std::optional<Change> correction_of(Database &database, CompoundId compound,
                                                  const std::string &inchikey);

} // namespace cospot::library

#pragma once

#include "document/json.h"
#include "rename/rename_result.h"

namespace cospot {

/// {"renamed": "compound" or "system", "before": {...}, "now": {...}, "notes": [...]}. A compound
/// has compound, inchikey, smiles, formula, average_mass and monoisotopic_mass (g/mol, Da); a
/// system has system.
[[nodiscard]] Json rename_json(const RenameResult &result);

} // namespace cospot

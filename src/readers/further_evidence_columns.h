#pragma once

#include "evidence/further_evidence.h"
#include "shared/table.h"

#include <vector>

namespace cospot {

/// The optional columns uv254 (yes or no), stain and stained (yes or no), molar_mass and
/// molar_mass_uncertainty (g/mol), formula.
[[nodiscard]] std::vector<TableColumn> further_evidence_columns();

/// Adds what the row says to what earlier rows said of the same feature; several stains may have
/// been tried, one a row. Returns whether the row says anything. Throws InputError for what cannot
/// be read, an unknown stain, an impossible mass or formula, and a row that contradicts an earlier
/// one.
bool read_further_evidence(const TableReader &table, FurtherEvidence &evidence);

} // namespace cospot

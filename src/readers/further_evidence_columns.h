#pragma once

#include "shared/table.h"

#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// A reagent that the spot was treated with.
struct StainTest {
    std::string stain; ///< a name of `stains()`
    bool stained = false;
};

/// What else was seen of a spot or peak, beside its retention.
struct FurtherEvidence {
    std::optional<bool> uv254; ///< a dark spot at 254 nm on a fluorescent layer
    std::vector<StainTest> stains;
    std::optional<double> molar_mass;             ///< of the neutral compound, g/mol
    std::optional<double> molar_mass_uncertainty; ///< standard uncertainty, g/mol
    std::string formula;                          ///< as given; empty: not known
};

[[nodiscard]] bool is_empty(const FurtherEvidence &evidence);

/// The optional columns uv254 (yes or no), stain and stained (yes or no), molar_mass and
/// molar_mass_uncertainty (g/mol), formula.
[[nodiscard]] std::vector<TableColumn> further_evidence_columns();

/// Adds what the row says to what earlier rows said of the same feature; several stains may have
/// been tried, one a row. Returns whether the row says anything. Faults of the row
/// are what cannot be read, an unknown stain, an impossible mass or formula, and what contradicts
/// an earlier row.
bool read_further_evidence(const TableReader &table, FurtherEvidence &evidence,
                           const std::string &stain = "");

} // namespace cospot

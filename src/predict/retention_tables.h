#pragma once

#include "document/document.h"
#include "predict/predictions.h"

#include <vector>

namespace cospot {

/// What to expect of one compound on each system.
[[nodiscard]] Table retention_table(const CompoundProfile &profile);

/// What to expect of several compounds on each system, first what leaves it first, and why; a
/// section for each system of which the library has values.
[[nodiscard]] std::vector<Section> elution_sections(const Predictions &predictions);

/// Where a compound is described.
[[nodiscard]] std::string compound_anchor(std::size_t position);

} // namespace cospot

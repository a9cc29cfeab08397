#pragma once

#include "evidence/elution_order.h"
#include "predict/predictions.h"

#include <optional>
#include <string>

namespace cospot {

/// How long a system of that mechanism holds the compound, by its structure alone and for rank
/// order only: larger is later. Adsorption on silica (`descriptors::SilicaAdsorption`); log P on a
/// reversed phase; polar surface and hydrogen-bond donors in paper; the estimated boiling point in
/// gas chromatography. Nothing for an unknown mechanism, or where the structure has no estimate.
[[nodiscard]] std::optional<double> held_by_structure(Mechanism mechanism,
                                                      const CompoundProfile &profile);

/// "By structure alone (log P), first to leave first: a, b, c. An order, no values." of the
/// compounds; empty where fewer than two can be ordered.
[[nodiscard]] std::string structure_order_sentence(const Predictions &predictions,
                                                   const library::System &system);

} // namespace cospot

#pragma once

#include "expectation/system_family.h"
#include "library/database.h"
#include "library/predictions.h"
#include "model/prediction/calibration.h"
#include "model/prediction/structure_model.h"

#include <cstdint>
#include <optional>
#include <string>

namespace cospot {

/// Add one whenever a search or a calibration makes something else of the same table: what was kept
/// before then does not count.
inline constexpr std::int64_t kPredictionVersion = 2;

/// What a fit follows from, in bytes: version, quantity, structures, mixtures and values.
[[nodiscard]] std::string origin_of(const SystemFamily &family);

/// The kept fit of the family; none where it is of other values, structures or another version, or
/// damaged.
[[nodiscard]] std::optional<prediction::StructureFit> kept_prediction(library::Database &database,
                                                                      const SystemFamily &family);

/// Keeps it, in a transaction of the caller's.
void store_prediction(library::Database &writer, const SystemFamily &family,
                      const prediction::StructureFit &fit);

} // namespace cospot

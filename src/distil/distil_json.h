#pragma once

#include "distil/distilled_sample.h"
#include "distil/volatility_order.h"
#include "document/json.h"

namespace cospot {

/// One object: peaks and recovered area; temperatures in degrees C, times in min. What is not known
/// is null.
[[nodiscard]] Json distilled_sample_json(const distillation::DistilledSample &sample);

/// One object: all compounds that were compared, in the order of their indices.
[[nodiscard]] Json volatility_order_json(const distillation::VolatilityOrder &order);

} // namespace cospot

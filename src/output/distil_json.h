#pragma once

#include "distillation/distilled_sample.h"
#include "distillation/volatility_order.h"

#include <string>

namespace cospot {

/// One line of JSON: peaks and recovered area; temperatures in degrees C, times in min.
[[nodiscard]] std::string distilled_sample_json(const distillation::DistilledSample &sample);

/// One line of JSON: all compounds that were compared, in the order of their indices.
[[nodiscard]] std::string volatility_order_json(const distillation::VolatilityOrder &order);

} // namespace cospot

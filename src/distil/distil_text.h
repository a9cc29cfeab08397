#pragma once

#include "distil/distilled_sample.h"
#include "distil/volatility_order.h"
#include "document/style.h"

#include <string>

namespace cospot {

/// Peaks with their boiling points and the table of recovered area; at most 80 columns.
[[nodiscard]] std::string distilled_sample_text(const distillation::DistilledSample &sample,
                                                const Style &style);

/// Compounds in the order of their indices beside the order of boiling points; of more than forty
/// only those that stand out. At most 80 columns.
[[nodiscard]] std::string volatility_order_text(const distillation::VolatilityOrder &order,
                                                const Style &style);

} // namespace cospot

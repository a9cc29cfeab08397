#pragma once

#include "model/prediction/curve_model.h"

namespace cospot::prediction {

/// Parameters under which the values of compounds that are left out have small squared errors. One
/// after the other is doubled or halved, later changed by a factor of 1.4, as long as that helps.
/// Of many compounds 120, evenly spread over the table, take part: some 40 fits of 0.02 to 0.04 s
/// each with ten or more mixtures.
[[nodiscard]] CurveParameters search_parameters(const RetentionTable &table,
                                                const CompoundGrams &grams);

} // namespace cospot::prediction

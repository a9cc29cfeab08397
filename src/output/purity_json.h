#pragma once

#include "output/json.h"
#include "purity/judged_sample.h"
#include "purity/trend.h"

namespace cospot {

/// One sample: "kind" is "sample"; `features` as they were read, each what `identify` says of it
/// with its role, identity, amounts and actions; `rules` with a verdict each; `in_order` where
/// every verdict is "meets".
[[nodiscard]] Json purity_json(const purity::JudgedSample &sample);

/// Several samples: "kind" is "trend"; a row for each compound, with null where it was not seen.
[[nodiscard]] Json trend_json(const purity::Trend &trend);

} // namespace cospot

#pragma once

#include "purity/judged_sample.h"
#include "purity/trend.h"

#include <nlohmann/json.hpp>

namespace cospot {

/// One sample: "kind" is "sample"; `features` as they were read, each with its role, identity,
/// amounts and actions; `rules` with a verdict each; `in_order` where every verdict is "meets".
[[nodiscard]] nlohmann::ordered_json purity_json(const purity::JudgedSample &sample);

/// Several samples: "kind" is "trend"; a row for each compound, with null where it was not seen.
[[nodiscard]] nlohmann::ordered_json trend_json(const purity::Trend &trend);

} // namespace cospot

#pragma once

#include "document/json.h"
#include "purity/judged_sample.h"
#include "purity/trend.h"

namespace cospot {

/// One sample: "kind" is "sample"; `features` as they were read, each what `identify` says of it
/// with its role, identity, amounts and actions; `rules` with a verdict each; `in_order` where
/// every verdict is "meets"; `relative_retention_is` says with `symbol` and `definition` which
/// ratio the features' `relative_retention` is, null where there is none.
[[nodiscard]] Json purity_json(const purity::JudgedSample &sample);

/// Several samples: "kind" is "trend"; a row for each compound, with null where it was not seen;
/// `relative_retention_is` as above, the ratio by which unknowns are followed.
[[nodiscard]] Json trend_json(const purity::Trend &trend);

} // namespace cospot

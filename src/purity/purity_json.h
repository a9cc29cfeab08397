#pragma once

#include "document/json.h"
#include "purity/purity_result.h"

namespace cospot {

/// An array with an object a sample: "kind" is "sample"; `features` as they were read, each what
/// `identify` says of it with its role, identity, amounts (of residual solvents `ppm`, with
/// `ppm_basis` "given" or "response") and actions; `rules` with a verdict each; `in_order` where
/// every verdict is "meets"; `confirmed` names what the user states to be confirmed and a feature
/// fits, which its `identity` says too; `relative_retention_is` says with `symbol` and `definition`
/// which ratio the features' `relative_retention` is, null where there is none. Of several samples
/// one object more: "kind" is "trend"; a row for each compound, with null where it was not seen and
/// `below_reporting` where its share is at or below the reporting threshold;
/// `relative_retention_is` as above, the ratio by which unknowns are followed.
[[nodiscard]] Json purity_results(const purity::PurityResult &result);

} // namespace cospot

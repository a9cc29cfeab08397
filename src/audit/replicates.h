#pragma once

#include "audit/audited_system.h"
#include "audit/finding.h"

#include <vector>

namespace cospot {

/// How far replicates scatter on a system, robustly, on the model scale of its quantity.
struct ReplicateSpread {
    double spread = 0.0;
    bool is_assumed = false; ///< fewer than five compounds have replicates; see assumed_spread()
};

/// 1.4826 times the median absolute residual from the compounds' medians (see audit_scale.h),
/// residuals of n values scaled by sqrt(n / (n - 1)) because the median is taken from the values
/// themselves; where n is odd the value that is the median says nothing and is left out. At least a
/// tenth of assumed_spread(): reading and rounding keep values from agreeing better.
[[nodiscard]] ReplicateSpread replicate_spread(const AuditedSystem &system);

/// One finding for each compound with a value whose modified z-score, its scaled residual over the
/// replicate spread of the system, is above 3.5 (iglewicz1993, from memory). The rows are all
/// values of the compound, the outlying ones suspect. Of two values that disagree, both are
/// suspect.
[[nodiscard]] std::vector<Finding> replicate_findings(const AuditedSystem &system);

} // namespace cospot

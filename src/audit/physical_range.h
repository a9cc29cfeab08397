#pragma once

#include "audit/audited_system.h"
#include "audit/finding.h"

#include <vector>

namespace cospot {

/// One finding a compound with values that no chromatogram or plate can show: R_F below 0 or above
/// 1 (`learn` keeps what a reading error of up to 0.02 may have put there), k below 0, a retention
/// index or time that is not above 0, and what is no finite number.
[[nodiscard]] std::vector<Finding> physical_range_findings(const AuditedSystem &system);

} // namespace cospot

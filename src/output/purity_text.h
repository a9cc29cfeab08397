#pragma once

#include "document/style.h"
#include "purity/judged_sample.h"
#include "purity/trend.h"

#include <string>

namespace cospot {

/// One sample for a terminal of 80 columns: its features, the verdicts, and what stays hidden.
[[nodiscard]] std::string purity_text(const purity::JudgedSample &sample, const Style &style);

/// Several samples: per cent by compound and sample, as many samples side by side as fit.
[[nodiscard]] std::string trend_text(const purity::Trend &trend, const Style &style);

} // namespace cospot

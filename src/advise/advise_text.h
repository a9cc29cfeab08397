#pragma once

#include "advise/feature_advice.h"
#include "advise/system_advice.h"
#include "document/style.h"

#include <string>
#include <vector>

namespace cospot {

/// What would settle one feature, for a terminal of 80 columns; the `top` best measurements.
[[nodiscard]] std::string advice_text(const Feature &feature, const FeatureAdvice &advice,
                                      std::size_t top, const Style &style);

/// What would tell most about all features of a sample.
[[nodiscard]] std::string sample_advice_text(const std::string &sample,
                                             const std::vector<AdvisedMeasurement> &measurements,
                                             std::size_t top, const Style &style);

/// Which systems tell a set of compounds apart.
[[nodiscard]] std::string system_advice_text(const SystemAdvice &advice, const Style &style);

} // namespace cospot

#pragma once

#include "advice/feature_advice.h"
#include "advice/system_advice.h"

#include <nlohmann/json.hpp>

#include <string>

namespace cospot {

/// One feature: "kind" is "feature"; what is open in bits, and `measurements`, each with its bits,
/// how many compounds it would probably leave in the 95 % set, and effort.
[[nodiscard]] nlohmann::ordered_json advice_json(const Feature &feature,
                                                 const FeatureAdvice &advice, std::size_t top);

/// One sample: "kind" is "sample"; measurements that tell about all its features.
[[nodiscard]] nlohmann::ordered_json
sample_advice_json(const std::string &sample, const std::vector<AdvisedMeasurement> &measurements,
                   std::size_t top);

/// A set of compounds: "kind" is "systems".
[[nodiscard]] nlohmann::ordered_json system_advice_json(const SystemAdvice &advice);

} // namespace cospot

#pragma once

#include "advise/feature_advice.h"
#include "advise/system_advice.h"
#include "document/json.h"

#include <string>

namespace cospot {

/// One feature: "kind" is "feature"; what is open in bits; the candidates
/// considered with their probabilities, of which the first `remaining` are the 95 % set; `other`,
/// the probability of all other candidates together, `unlisted`; and `measurements`, each with its
/// bits, how many compounds it would probably leave in the 95 % set, and effort.
[[nodiscard]] Json advice_json(const Feature &feature, const FeatureAdvice &advice,
                               std::size_t top);

/// One sample: "kind" is "sample"; measurements that tell about all its features.
[[nodiscard]] Json sample_advice_json(const std::string &sample,
                                      const std::vector<AdvisedMeasurement> &measurements,
                                      std::size_t top);

/// A set of compounds: "kind" is "systems".
[[nodiscard]] Json system_advice_json(const SystemAdvice &advice);

} // namespace cospot

#pragma once

#include "advise/feature_advice.h"
#include "advise/system_advice.h"
#include "document/json.h"

namespace cospot {

/// One feature: "kind" is "feature"; what is open in bits; the candidates considered with their
/// probabilities, of which the first `remaining` are the 95 % set; `other`, the probability of all
/// other candidates together, `unlisted`; and `measurements`, each with its bits, how many
/// compounds it would probably leave in the 95 % set, and effort.
[[nodiscard]] Json feature_advice_json(const FeatureAdvice &advice);

/// One sample of several features: "kind" is "sample"; measurements that tell about all of them.
[[nodiscard]] Json sample_advice_json(const SampleAdvice &advice);

/// A set of compounds: "kind" is "systems".
[[nodiscard]] Json system_advice_json(const SystemAdvice &advice);

} // namespace cospot

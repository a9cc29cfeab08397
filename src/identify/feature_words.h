#pragma once

#include "readers/feature.h"

#include <string>

namespace cospot {

/// "flask 1 / 2"; the feature alone where the sample has no name.
[[nodiscard]] std::string feature_name(const Feature &feature);

/// "Rf 0.39 ± 0.01"
[[nodiscard]] std::string reading_of(const FeatureObservation &observation);

/// All that was observed of the feature: "tR 3.412 min; RI 1034.7 ± 0.5 on phenyl5".
[[nodiscard]] std::string readings_of(const Feature &feature);

/// "paired with peak 5 of polar-gc at 7.310 min (11.9 % there, 12.4 % here; probability of the pair
/// 0.98)"; empty where there is no second column.
[[nodiscard]] std::string pair_words(const Feature &feature);

/// What was seen beside retention: "dark at 254 nm, stained by ninhydrin"; empty where nothing was.
[[nodiscard]] std::string further_words(const FurtherEvidence &further);

} // namespace cospot

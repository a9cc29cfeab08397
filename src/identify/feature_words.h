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

/// What was seen beside retention: "dark at 254 nm, stained by ninhydrin"; empty where nothing was.
[[nodiscard]] std::string further_words(const FurtherEvidence &further);

} // namespace cospot

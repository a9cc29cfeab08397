#pragma once

#include "document/document.h"
#include "identify/identify_result.h"

#include <span>
#include <string>

namespace cospot {

/// Which compounds the features may be: the plate or chromatogram, an overview, each feature with
/// its candidates, and the structures of the likeliest ones. With `has_sheets` each sample is
/// printed on a sheet of its own. `lead` comes before all else, as `FeatureSet` has it.
[[nodiscard]] Document identify_document(std::span<const AnsweredFeature> features, bool has_sheets,
                                         std::span<const std::string> lead = {});

} // namespace cospot

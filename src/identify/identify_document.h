#pragma once

#include "document/document.h"
#include "identify/identify_result.h"

#include <span>

namespace cospot {

/// Which compounds the features may be: the plate or chromatogram, an overview, each feature with
/// its candidates, and the structures of the likeliest ones. With `has_sheets` each sample is
/// printed on a sheet of its own.
[[nodiscard]] Document identify_document(std::span<const AnsweredFeature> features,
                                         bool has_sheets);

} // namespace cospot

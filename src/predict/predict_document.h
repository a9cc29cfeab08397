#pragma once

#include "document/document.h"
#include "predict/predictions.h"

namespace cospot {

/// What retention to expect (of one compound system by system; of several on each system in the
/// order in which they leave it), then what each structure says.
[[nodiscard]] Document predict_document(const Predictions &predictions);

} // namespace cospot

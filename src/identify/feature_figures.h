#pragma once

#include "document/document.h"
#include "identify/identify_result.h"

#include <cstddef>
#include <span>
#include <vector>

namespace cospot {

/// The plate or the chromatograms that the features were read from; none for a long table. Marks
/// are the positions of the features, which count from `first`; standards of a plate have letters.
[[nodiscard]] std::vector<Figure> feature_figures(std::span<const AnsweredFeature> features,
                                                  std::size_t first);

} // namespace cospot

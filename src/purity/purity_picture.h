#pragma once

#include "document/document.h"
#include "purity/judged_sample.h"

#include <optional>

namespace cospot {

/// The chromatogram, or the lane of the plate beside its standards; none for a long table. Keys of
/// the marks are the positions of the features, from 1.
[[nodiscard]] std::optional<Figure> purity_picture(const purity::JudgedSample &sample);

} // namespace cospot

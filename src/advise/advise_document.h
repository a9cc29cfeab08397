#pragma once

#include "advise/feature_advice.h"
#include "document/document.h"

#include <span>

namespace cospot {

/// What to measure next: which measurement would tell most about each feature, and about all
/// features of a sample at once. The table of a report has a row for each measurement.
[[nodiscard]] Document advise_document(std::span<const SampleAdvice> samples);

} // namespace cospot

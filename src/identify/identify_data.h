#pragma once

#include "document/document.h"
#include "identify/identify_result.h"

#include <span>

namespace cospot {

/// One row a candidate, then one for `unlisted`; values of features seen on one system only.
[[nodiscard]] DataTable identify_data(std::span<const AnsweredFeature> features);

} // namespace cospot

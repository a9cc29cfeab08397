#pragma once

#include "document/document.h"
#include "identify/identify_result.h"

#include <cstddef>
#include <string>

namespace cospot {

/// Where the section of the feature at a position (from 1) is found.
[[nodiscard]] std::string feature_anchor(std::size_t position);

/// What is said about one feature: what was observed, its candidates and warnings.
[[nodiscard]] Section brief_feature_section(const AnsweredFeature &answered, std::size_t position);

/// The same, and why.
[[nodiscard]] Section feature_section(const AnsweredFeature &answered, std::size_t position);

} // namespace cospot

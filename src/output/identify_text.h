#pragma once

#include "document/style.h"
#include "evidence/feature.h"
#include "identification/identification.h"

#include <string>

namespace cospot {

/// The heading of the columns that `identify_text` fills.
[[nodiscard]] std::string identify_heading();

/// Whether a group of the identification gets a line of its own; the rest is summed up.
[[nodiscard]] bool is_worth_listing(const matcher::Group &group, const Identification &result);

/// One feature for reading, at most 80 columns wide: what was observed, then a line a candidate
/// with probability, basis, expected value with spread, and deviation; what cannot be told apart
/// shares a line. Likely candidates only; the rest is summed up.
[[nodiscard]] std::string identify_text(const Feature &feature, const Identification &result,
                                        const Style &style);

} // namespace cospot

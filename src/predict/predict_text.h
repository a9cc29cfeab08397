#pragma once

#include "document/style.h"
#include "expectation/compound_profile.h"

#include <string>
#include <vector>

namespace cospot {

/// One compound for reading, at most 80 columns wide.
[[nodiscard]] std::string predict_text(const CompoundProfile &profile, const Style &style);

/// The compounds in the order in which they are expected to elute on a system, with the reason in a
/// chemist's words. Empty with fewer than two expectations.
[[nodiscard]] std::string elution_order_text(const std::vector<CompoundProfile> &profiles,
                                             const library::System &system);

} // namespace cospot

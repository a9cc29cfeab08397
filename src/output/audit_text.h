#pragma once

#include "audit/finding.h"
#include "library/database.h"
#include "output/style.h"

#include <string>
#include <vector>

namespace cospot {

/// The headline of a kind of finding.
[[nodiscard]] std::string_view heading_of(FindingKind kind);

/// A finding with its sentence, its first rows (suspect ones marked with '*') and the advice, at
/// most 80 columns wide.
[[nodiscard]] std::string finding_text(const Finding &finding, library::Database &database,
                                       const Style &style);

/// The line at the end: how many findings of which kind.
[[nodiscard]] std::string counts_text(const std::vector<Finding> &findings);

} // namespace cospot

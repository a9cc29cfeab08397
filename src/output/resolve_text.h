#pragma once

#include "document/style.h"
#include "eluent_choice/answer.h"

#include <string>

namespace cospot {

/// The whole answer for a reader: lines, best and fastest run, changes of order, wanted k,
/// gradient, a map of the resolution drawn with letters, warnings. At most 80 columns.
[[nodiscard]] std::string resolve_text(const eluent_choice::Answer &answer, const Style &style);

} // namespace cospot

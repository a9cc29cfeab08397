#pragma once

#include "eluent_choice/answer.h"

#include <string>

namespace cospot {

/// The resolution of the critical pair over the fraction, as columns of letters; at most 80 columns
/// wide. Of two compounds or more.
[[nodiscard]] std::string resolution_map_text(const eluent_choice::Answer &answer);

} // namespace cospot

#pragma once

#include "eluent_choice/answer.h"

#include <string>

namespace cospot {

/// The map of resolution as an SVG of its own: critical resolution over the fraction, the best
/// fraction marked and named, stretches where a k leaves the window hatched. Black on white, and
/// readable without colour; title and description for those who cannot see it. Of two compounds or
/// more.
[[nodiscard]] std::string resolve_picture(const eluent_choice::Answer &answer);

} // namespace cospot

#pragma once

#include "drawing/window_diagram.h"

#include <string>

namespace cospot {

/// The window diagram for a terminal, 74 columns wide.
[[nodiscard]] std::string window_diagram_text(const DrawnWindowDiagram &diagram);

} // namespace cospot

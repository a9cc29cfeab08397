#pragma once

#include "drawing/window_diagram.h"
#include "resolve/answer.h"

namespace cospot {

/// The window diagram of an answer on two compounds or more.
[[nodiscard]] DrawnWindowDiagram window_diagram_of(const resolve::Answer &answer);

} // namespace cospot

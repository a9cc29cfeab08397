#pragma once

#include "drawing/fractions_picture.h"

#include <string>

namespace cospot {

/// The run for a terminal, at most 80 columns wide: a cell a fraction, a line a component, in as
/// many blocks as it takes; then what the cells mean. Neighbours that nobody looked at are one
/// cell.
[[nodiscard]] std::string fractions_text(const DrawnRun &run);

} // namespace cospot

#pragma once

#include "rendered_plate.h"

#include <string>

namespace cospot::rendering {

/// Writes the photo as NAME.png and its truth as NAME.json. Throws std::runtime_error where that is
/// not possible.
void write_picture(const RenderedPlate &plate, const std::string &name);

} // namespace cospot::rendering

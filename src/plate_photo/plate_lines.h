#pragma once

#include "plate_photo/found_plate.h"
#include "plate_photo/layer_light.h"

#include <optional>

namespace cospot::plate_photo {

struct PlateLines {
    std::optional<PlateLine> start;
    std::optional<PlateLine> front;
};

/// The start and the front as they are seen: lines drawn in pencil, which are thin, dark and reach
/// across the plate; a front that nobody drew as the band or the edge that the eluent left. Each is
/// a parabola from edge to edge. What is not seen in most of the strips across the plate is none.
[[nodiscard]] PlateLines seen_lines(const LayerLight &layer);

/// A line at one height, as the user gives it.
[[nodiscard]] PlateLine given_line(double y_mm);

/// Height of a line above the lower edge, at `x_mm` of a plate so wide.
[[nodiscard]] double height_at(const PlateLine &line, double x_mm, double width_mm);

} // namespace cospot::plate_photo

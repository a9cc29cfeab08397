#pragma once

#include "plate_photo/plate_geometry.h"

#include <array>
#include <cstdint>
#include <functional>
#include <vector>

namespace cospot::plate_photo {

/// Red, green and blue, linear in light.
using Colour = std::array<double, 3>;

/// A round or oval spot, Gaussian along and across; `tail_mm` of an exponential towards the start.
struct SceneSpot {
    double x_mm = 0.0;
    double y_mm = 0.0;
    double along_mm = 1.2; ///< standard deviations
    double across_mm = 1.2;
    double tail_mm = 0.0;
    Colour density{0.1, 0.1, 0.1}; ///< absorbance at the densest place; below 0 it glows
};

/// A line of pencil: a parabola from edge to edge.
struct SceneLine {
    double left_mm = 0.0;
    double middle_mm = 0.0;
    double right_mm = 0.0;
    double thickness_mm = 0.4;
    double density = 0.1;
};

/// A dark disc: dirt, a finger.
struct SceneDisc {
    double x_mm = 0.0;
    double y_mm = 0.0;
    double radius_mm = 0.3;
    double density = 1.0;
};

/// A plate as seen from straight above, invented and of its own kind, so that what is found on it
/// does not hang on one way of rendering.
struct FlatScene {
    PlateSize size{.width_mm = 50.0, .height_mm = 100.0};
    double pixels_per_mm = 10.0;
    Colour layer{0.62, 0.62, 0.58};
    std::function<double(double, double)> lamp; ///< light at x_mm, y_mm; even where there is none
    std::vector<SceneSpot> spots;
    std::vector<SceneLine> lines;
    std::vector<SceneDisc> discs;
    double noise = 0.01; ///< deviation of a pixel's light, in shares of it
    std::uint32_t seed = 1;
};

[[nodiscard]] FlatPlate drawn(const FlatScene &scene);

} // namespace cospot::plate_photo

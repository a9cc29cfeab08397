#pragma once

#include "chromatogram.h"
#include "colour.h"
#include "draws.h"

#include <vector>

namespace cospot::rendering {

/// The rim of a plate and its sides: rounded corners, chips, a rough cut, the thickness of its
/// support.
class Rim {
public:
    Rim(const Chromatogram &plate, Difficulty difficulty, Draws draws);
    /// How far a place lies inside the plate, mm; below 0 beside it.
    [[nodiscard]] double inside(double x_mm, double y_mm) const;
    /// How far it lies inside the layer: less where the support is bare at an edge.
    [[nodiscard]] double inside_layer(double x_mm, double y_mm) const;
    [[nodiscard]] double thickness_mm() const { return thickness_mm_; }
    [[nodiscard]] Colour support() const { return support_; } ///< seen from above
    [[nodiscard]] Colour side() const { return side_; }
    /// What is left of the light on the bench beside the plate: its own shadow.
    [[nodiscard]] double shade(double x_mm, double y_mm) const;

private:
    struct Chip {
        double x, y, radius;
    };
    double width_, height_;
    double corner_mm_ = 0.0, rough_mm_ = 0.0, thickness_mm_ = 1.0, bare_mm_ = 0.0;
    double shade_x_ = 0.0, shade_y_ = 0.0, shade_soft_ = 1.0, shade_strength_ = 0.0;
    std::uint32_t seed_;
    std::vector<Chip> chips_;
    Colour support_, side_;
};

} // namespace cospot::rendering

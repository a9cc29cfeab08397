#pragma once

#include "chromatogram.h"
#include "colour.h"
#include "draws.h"

#include <vector>

namespace cospot::rendering {

/// How much light falls on each place of the scene, and how much of it the lens lets through.
class Lighting {
public:
    Lighting(const Chromatogram &plate, Difficulty difficulty, Draws draws);
    /// mm from the plate's lower left corner; radius in half diagonals from the photo's middle.
    [[nodiscard]] Colour at(double x_mm, double y_mm, double radius) const;

private:
    /// Of a straight thing, a hand or a phone: on one side of a line, or between two.
    struct Shadow {
        double across_x, across_y, from, to; ///< on the axis (across_x, across_y), mm
        double edge_mm, strength;
    };
    void draw_shadows(Difficulty difficulty, Draws &draws);

    double middle_x_, middle_y_, half_mm_;
    double slope_x_ = 0.0, slope_y_ = 0.0; ///< relative change over half the plate's diagonal
    double lamp_x_ = 0.0, lamp_y_ = 0.0, lamp_height_ = 0.0; ///< in half diagonals of the plate
    double vignette_ = 0.0;
    std::uint32_t seed_ = 0;
    double waves_ = 0.0;
    Colour cast_;
    std::vector<Shadow> shadows_;
};

} // namespace cospot::rendering

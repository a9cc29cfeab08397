#pragma once

#include "draws.h"

#include <string>
#include <vector>

namespace cospot::rendering {

/// A stroke of a pen from one point to another, mm.
struct Stroke {
    double x1 = 0.0, y1 = 0.0, x2 = 0.0, y2 = 0.0;
};

/// Digits and capital letters (others are left out) as somebody writes them with a pencil: this
/// high, from (x, y) to the right, y up.
[[nodiscard]] std::vector<Stroke> written(const std::string &text, double x_mm, double y_mm,
                                          double height_mm, Draws &draws);

} // namespace cospot::rendering

#pragma once

#include "chromatogram.h"
#include "colour.h"
#include "draws.h"

namespace cospot::rendering {

enum class BenchKind { dark, paper, wood, glove, tiles, cloth };

/// What a plate lies on: the light that comes from each place of it under an even lamp.
class Bench {
public:
    Bench(const Chromatogram &plate, Draws draws);
    [[nodiscard]] Colour at(double x_mm, double y_mm) const;

private:
    [[nodiscard]] Colour albedo(double x, double y) const;
    [[nodiscard]] Colour wood(double x, double y) const;
    [[nodiscard]] Colour glove(double x, double y) const;
    [[nodiscard]] Colour tiles(double x, double y) const;
    [[nodiscard]] Colour paper(double x, double y) const;

    BenchKind kind_;
    std::uint32_t seed_;
    double cos_, sin_; ///< how it is turned against the plate
    double shift_x_, shift_y_;
    double pitch_mm_; ///< of tiles, planks, paper
    Colour tone_;
    Colour lamp_; ///< what the lamp makes of white
};

} // namespace cospot::rendering

#pragma once

#include "chromatogram.h"
#include "colour.h"
#include "draws.h"

#include <algorithm>

namespace cospot::rendering {

/// The light that comes from each place of a plate's layer under an even lamp. Its brightest
/// channel is about 1 where it is clean (0.06 at 366 nm, where spots may be far brighter).
class Layer {
public:
    Layer(const Chromatogram &plate, Difficulty difficulty, double pixels_per_mm, Draws draws);
    /// The nearest light where the place lies beside the plate. mm from the left and lower edges.
    [[nodiscard]] Colour at(double x_mm, double y_mm) const;
    /// Where nothing is on it.
    [[nodiscard]] Colour clean() const { return clean_; }
    /// How strong it is there.
    [[nodiscard]] double brightest_channel() const {
        return std::max({clean_.r, clean_.g, clean_.b});
    }

private:
    double scale_; ///< pixels of the raster a mm
    Colour clean_;
    Raster light_; ///< its first row is at the lower edge
};

} // namespace cospot::rendering

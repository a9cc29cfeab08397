#pragma once

namespace cospot::rendering {

/// How a tail goes down from the densest place of a spot.
enum class Tail {
    none,
    smeared, ///< a Gaussian convolved with an exponential
    comet,   ///< a Gaussian head, a share of which goes on as an exponential
};

/// The amount of substance over the plate, 1 at its densest place. Lengths in mm.
struct SpotShape {
    double x_mm = 0.0;
    double y_mm = 0.0;      ///< the densest place
    double across_mm = 1.0; ///< standard deviation across the lane
    double along_mm = 1.0;  ///< and along it
    Tail tail = Tail::none;
    double tail_mm = 0.0;   ///< length of the exponential
    double flatness = 2.0;  ///< exponent: 2 is a Gaussian, more has a flatter top (no tail)
    double bend = 0.0;      ///< of a crescent: 1/mm, its horns point down where it is above 0
    double peak_offset = 0; ///< of a smeared tail: from the Gaussian's middle to the densest place
    double peak_value = 1;  ///< of a smeared tail, before it is scaled to 1
};

/// Places the peak of a smeared tail; call it once all else is set.
void settle(SpotShape &shape);

/// Amount at a place, 0 to 1.
[[nodiscard]] double amount(const SpotShape &shape, double x_mm, double y_mm);

/// Where the amount on the spot's vertical axis falls to a share of its greatest.
struct Extent {
    double low_mm = 0.0, high_mm = 0.0;
};
[[nodiscard]] Extent extent(const SpotShape &shape, double share);

/// Mean place of the amount on the spot's vertical axis.
[[nodiscard]] double centre_mm(const SpotShape &shape);

/// Distance across at which the amount at the densest place's height falls to a share, one side.
[[nodiscard]] double half_width_mm(const SpotShape &shape, double share);

} // namespace cospot::rendering

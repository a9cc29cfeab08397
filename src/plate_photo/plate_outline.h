#pragma once

#include "plate_photo/plate_geometry.h"
#include "plate_photo/reduced_photo.h"

#include <optional>

namespace cospot::plate_photo {

/// The four lines between which a plate is most likely, in a reduced photo.
struct PlateOutline {
    Corners corners{};     ///< in pixels of the reduced photo
    double evidence = 0.0; ///< natural logarithm of a ratio of likelihoods, against no plate
    double lead = 0.0;     ///< over the best one with other corners
    double weakest = 0.0;  ///< evidence of the weakest edge, by pixel of its length
    bool alone = false;    ///< no other thing in the photo may be the plate as well
};

/// A plate is a rectangle in perspective: two pairs of lines that are nearly parallel. Its edges
/// show where changes of light follow them and end at the corners, and what is inside differs from
/// what is outside. Where one outline lies within another, clear of it, the inner one is the plate
/// and the outer what it lies on. None where no four lines have evidence.
[[nodiscard]] std::optional<PlateOutline> plate_outline(const ReducedPhoto &photo);

} // namespace cospot::plate_photo

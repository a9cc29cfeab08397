#pragma once

#include "rendering/chromatogram.h"

#include "images/image.h"
#include "plate_photo/plate_geometry.h"

#include <cstdint>
#include <optional>

namespace cospot::rendering {

/// What a picture is drawn from: the same recipe gives the same picture.
struct PlateRecipe {
    std::uint64_t seed = 1;
    /// Tilt up to 5, 18, 30 degrees; turn, distortion, shadows, noise and blur rise with it too.
    Difficulty difficulty = Difficulty::usual;
    double megapixels = 1.0;
    std::optional<plate_photo::Light> light; ///< else drawn: white in half of the pictures
};

/// A photo of a developed plate that was never there, and what is true of it.
struct RenderedPlate {
    images::Image image;
    plate_photo::Corners corners; ///< of the plate's upper face, as if none was rounded or chipped
    Chromatogram truth;
    double tilt_degrees = 0.0;
    double pixels_per_mm = 0.0; ///< in the middle of the plate, mean of both directions
};

[[nodiscard]] RenderedPlate rendered(const PlateRecipe &recipe);

} // namespace cospot::rendering

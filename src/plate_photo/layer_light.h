#pragma once

#include "plate_photo/field.h"
#include "plate_photo/plate_geometry.h"

#include <array>

namespace cospot::plate_photo {

/// The light that a plate sends back, and what of it the layer itself would send: uneven light,
/// shadows and zones are in the layer, spots and lines are not. Red, green and blue, linear in
/// light (IEC 61966-2-1), 0 to 1.
struct LayerLight {
    std::array<Field, 3> light;      ///< in cells of about a quarter of a millimetre
    std::array<Field, 3> background; ///< of the layer, in cells of about a millimetre
    /// light / background - 1 in the cells of `light`: below 0 where something absorbs.
    std::array<Field, 3> change;
};

/// The layer's own light is a cubic surface in the logarithm of light, fitted robustly, times the
/// median of what is left over squares of 21 mm without what stands out. A median keeps straight
/// edges of shadows and zones as sharp as they are (tukey1977, from memory), and is blind to spots
/// that fill less than half of the square.
[[nodiscard]] LayerLight layer_light(const FlatPlate &plate);

/// Linear light of an sRGB byte, 0 to 1 (IEC 61966-2-1).
[[nodiscard]] double linear_light(int srgb);

} // namespace cospot::plate_photo

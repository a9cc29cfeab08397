#pragma once

#include "images/image.h"
#include "plate_photo/plate_geometry.h"

#include <optional>

namespace cospot::plate_photo {

/// The plate in a photo: four edges that are straight but for the lens, and where they would meet:
/// a corner may be covered or broken off. None where the photo leaves a doubt: no four lines are
/// evident, others are nearly as likely, or an edge is hidden on most of its length. Then the user
/// has to give the corners.
[[nodiscard]] std::optional<Outline> find_corners(const images::Image &photo);

} // namespace cospot::plate_photo

#include "plate_photo/plate_geometry.h"

#include <cmath>

namespace cospot::plate_photo {

double distance(Place a, Place b) {
    return std::hypot(a.x - b.x, a.y - b.y);
}

} // namespace cospot::plate_photo

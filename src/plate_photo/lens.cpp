#include "plate_photo/lens.h"

#include <cmath>

namespace cospot::plate_photo {

Lens lens_of(int width, int height) {
    return {{width / 2.0, height / 2.0}, std::hypot(width, height) / 2.0, 0.0};
}

Place seen(const Lens &lens, Place straight) {
    const double x = straight.x - lens.centre.x;
    const double y = straight.y - lens.centre.y;
    const double squared = (x * x + y * y) / (lens.radius_px * lens.radius_px);
    const double factor = 1.0 + lens.radial * squared;
    return {lens.centre.x + factor * x, lens.centre.y + factor * y};
}

Place straightened(const Lens &lens, Place seen) {
    const double distorted = distance(seen, lens.centre) / lens.radius_px;
    if (lens.radial == 0.0 || distorted == 0.0) {
        return seen;
    }
    constexpr int rounds = 6; // each doubles the digits
    double s = distorted;
    for (int round = 0; round < rounds; ++round) {
        s -= (s + lens.radial * s * s * s - distorted) / (1.0 + 3.0 * lens.radial * s * s);
    }
    const double factor = s / distorted;
    return {lens.centre.x + factor * (seen.x - lens.centre.x),
            lens.centre.y + factor * (seen.y - lens.centre.y)};
}

Corners straightened_corners(const Lens &lens, const Corners &seen) {
    return {straightened(lens, seen[0]), straightened(lens, seen[1]), straightened(lens, seen[2]),
            straightened(lens, seen[3])};
}

} // namespace cospot::plate_photo

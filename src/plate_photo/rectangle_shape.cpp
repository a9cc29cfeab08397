#include "plate_photo/rectangle_shape.h"

#include <Eigen/Dense>

#include <cmath>
#include <optional>

namespace cospot::plate_photo {

namespace {

/// Focal length over half of the diagonal: 26 mm and 43.3 mm / 2 on the film of 24 x 36 mm to
/// which lenses are compared (common practice, no source).
constexpr double kCommonFocalLength = 1.2;
constexpr double kLeastFocalLength =
    0.7; ///< wider lenses bend lines more than a plate's photo does
constexpr double kMostFocalLength = 6.0;
constexpr double kCertainFocalLength = 0.1; ///< relative, standard

/// The plate's axes, across and down, seen from the centre: n2 and n3 of Zhang and He, equations 11
/// to 16, from the upper left (m1), upper right (m2), lower left (m3) and lower right (m4) corner.
struct Axes {
    Eigen::Vector3d across, down;
};

Axes axes_of(const Corners &corners, Place centre, double radius_px) {
    const auto from_centre = [&](Place place) {
        return Eigen::Vector3d((place.x - centre.x) / radius_px, (place.y - centre.y) / radius_px,
                               1.0);
    };
    const Eigen::Vector3d m1 = from_centre(corners[0]);
    const Eigen::Vector3d m2 = from_centre(corners[1]);
    const Eigen::Vector3d m3 = from_centre(corners[3]);
    const Eigen::Vector3d m4 = from_centre(corners[2]);
    const double k2 = m1.cross(m4).dot(m3) / m2.cross(m4).dot(m3);
    const double k3 = m1.cross(m4).dot(m2) / m3.cross(m4).dot(m2);
    return {k2 * m2 - m1, k3 * m3 - m1};
}

/// Squared, in radii (Zhang and He, equation 21, with the principal point as origin).
double squared_focal_length(const Axes &axes) {
    return -(axes.across.x() * axes.down.x() + axes.across.y() * axes.down.y()) /
           (axes.across.z() * axes.down.z());
}

/// None where the corners do not tell it to a tenth, or tell one that no camera has.
std::optional<double> certain_focal_length(const Corners &corners, Place centre, double radius_px,
                                           double uncertainty_px) {
    const double squared = squared_focal_length(axes_of(corners, centre, radius_px));
    if (!(squared > kLeastFocalLength * kLeastFocalLength &&
          squared < kMostFocalLength * kMostFocalLength)) {
        return std::nullopt;
    }
    double variance = 0.0;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        for (double Place::*coordinate : {&Place::x, &Place::y}) {
            Corners moved = corners;
            moved[i].*coordinate += uncertainty_px;
            const double change =
                squared_focal_length(axes_of(moved, centre, radius_px)) / squared - 1.0;
            variance += change * change / 4.0; // half of it in the focal length itself
        }
    }
    if (!(std::sqrt(variance) < kCertainFocalLength)) {
        return std::nullopt;
    }
    return std::sqrt(squared);
}

} // namespace

double width_over_height(const Corners &corners, Place centre, double radius_px,
                         double uncertainty_px) {
    const double focal_length = certain_focal_length(corners, centre, radius_px, uncertainty_px)
                                    .value_or(kCommonFocalLength);
    const auto length = [&](const Eigen::Vector3d &axis) {
        return std::hypot(axis.x() / focal_length, axis.y() / focal_length, axis.z());
    };
    const Axes axes = axes_of(corners, centre, radius_px);
    return length(axes.across) / length(axes.down);
}

} // namespace cospot::plate_photo

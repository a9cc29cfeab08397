#pragma once

#include "chromatogram.h"
#include "draws.h"

#include "plate_photo/plate_geometry.h"

#include <array>

namespace cospot::rendering {

/// mm: x to the right and y up on the plate's upper face, from its lower left corner; z towards the
/// camera.
using Point = std::array<double, 3>;

/// A pinhole with radial distortion (Brown 1966, Photogramm. Eng. 32, 444, its first term): what
/// would be seen at r from the middle of the photo, in half diagonals, is seen at r (1 + k r^2).
class Camera {
public:
    /// One that sees the whole plate: by difficulty up to 30 degrees off the vertical in any
    /// direction and 10 degrees turned, 3 % distortion; the plate takes 30 to 90 % of the photo's
    /// width or height, whichever it fills more.
    Camera(plate_photo::PlateSize plate, Difficulty difficulty, double megapixels, Draws draws);

    [[nodiscard]] int width() const { return width_; }
    [[nodiscard]] int height() const { return height_; }
    [[nodiscard]] plate_photo::Place project(const Point &point) const;
    /// Direction from the camera to what is seen at a place.
    [[nodiscard]] Point ray(plate_photo::Place place) const;
    [[nodiscard]] const Point &position() const { return position_; }
    /// In half diagonals from the middle of the photo.
    [[nodiscard]] double radius(plate_photo::Place place) const;
    [[nodiscard]] double tilt_degrees() const { return tilt_degrees_; }

private:
    void aim_at(const Point &target);
    [[nodiscard]] plate_photo::Corners corners(plate_photo::PlateSize plate) const;
    void fit(plate_photo::PlateSize plate, double filled, double off_x, double off_y);

    int width_ = 0, height_ = 0;
    double focal_px_ = 1.0, distortion_ = 0.0, distance_mm_ = 0.0, tilt_degrees_ = 0.0;
    Point right_{}, down_{}, forward_{}, position_{};
};

} // namespace cospot::rendering

#include "camera.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace cospot::rendering {
namespace {

using plate_photo::Corners;
using plate_photo::Place;
using plate_photo::PlateSize;

double dot(const Point &a, const Point &b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

Point sum(const Point &a, double factor, const Point &b) {
    return {a[0] + factor * b[0], a[1] + factor * b[1], a[2] + factor * b[2]};
}

Point cross(const Point &a, const Point &b) {
    return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}

/// Around a unit axis (Rodrigues' rotation formula).
Point turned(const Point &v, const Point &axis, double angle) {
    const Point along = sum({}, std::cos(angle), v);
    const Point around = sum(along, std::sin(angle), cross(axis, v));
    return sum(around, dot(axis, v) * (1.0 - std::cos(angle)), axis);
}

struct Most {
    double tilt, turn, distortion, nearest;
};

Most most_of(Difficulty difficulty) {
    switch (difficulty) {
    case Difficulty::easy:
        return {5.0, 2.0, 0.003, 300.0};
    case Difficulty::usual:
        return {18.0, 6.0, 0.015, 250.0};
    case Difficulty::hard:
        break;
    }
    return {30.0, 10.0, 0.03, 180.0};
}

} // namespace

Camera::Camera(PlateSize plate, Difficulty difficulty, double megapixels, Draws draws) {
    const double sides = draws.one_of({4.0 / 3.0, 4.0 / 3.0, 1.5, 16.0 / 9.0});
    const bool upright = draws.chance(plate.height_mm > plate.width_mm ? 0.8 : 0.4);
    const double longer = std::sqrt(megapixels * 1e6 * sides);
    width_ = static_cast<int>(upright ? longer / sides : longer);
    height_ = static_cast<int>(upright ? longer : longer / sides);

    const Most most = most_of(difficulty);
    tilt_degrees_ = draws.uniform(0.0, most.tilt);
    const double radian = std::numbers::pi / 180.0;
    const double towards = draws.uniform(0.0, 2.0 * std::numbers::pi);
    const Point axis{std::cos(towards), std::sin(towards), 0.0};
    const auto tilted = [&](const Point &v) { return turned(v, axis, tilt_degrees_ * radian); };
    forward_ = tilted({0.0, 0.0, -1.0});
    const double turn = draws.uniform(-most.turn, most.turn) * radian;
    right_ = turned(tilted({1.0, 0.0, 0.0}), forward_, turn);
    down_ = turned(tilted({0.0, -1.0, 0.0}), forward_, turn);

    const double diagonal = std::hypot(plate.width_mm, plate.height_mm);
    distance_mm_ = std::max(most.nearest, 1.3 * diagonal) * draws.uniform(1.0, 1.8);
    distortion_ = draws.uniform(-most.distortion, 0.2 * most.distortion);
    const double filled = draws.chance(0.15) ? draws.uniform(0.3, 0.45) : draws.uniform(0.45, 0.9);
    fit(plate, filled, draws.uniform(-1.0, 1.0), draws.uniform(-1.0, 1.0));
}

void Camera::aim_at(const Point &target) {
    position_ = sum(target, -distance_mm_, forward_);
}

/// Focal length and aim, in turns, until the plate takes its share of the photo and lies in it off
/// the middle: (off_x, off_y) of the room that is left, less a margin of 1.5 % of the sides.
void Camera::fit(PlateSize plate, double filled, double off_x, double off_y) {
    Point target{0.5 * plate.width_mm, 0.5 * plate.height_mm, 0.0};
    focal_px_ = width_;
    for (int round = 0; round < 40; ++round) {
        aim_at(target);
        const Corners seen = corners(plate);
        const auto [left, right] = std::minmax({seen[0].x, seen[1].x, seen[2].x, seen[3].x});
        const auto [top, low] = std::minmax({seen[0].y, seen[1].y, seen[2].y, seen[3].y});
        focal_px_ *= filled / std::max((right - left) / width_, (low - top) / height_);
        const double room_x = 0.5 * (width_ - (right - left)) - 0.015 * width_;
        const double room_y = 0.5 * (height_ - (low - top)) - 0.015 * height_;
        const double miss_x = 0.5 * (left + right) - 0.5 * width_ - off_x * room_x;
        const double miss_y = 0.5 * (top + low) - 0.5 * height_ - off_y * room_y;
        const double mm = distance_mm_ / focal_px_;
        target = sum(sum(target, 0.7 * miss_x * mm, right_), 0.7 * miss_y * mm, down_);
        target[2] = 0.0;
    }
    aim_at(target);
}

Corners Camera::corners(PlateSize plate) const {
    return {project({0.0, plate.height_mm, 0.0}), project({plate.width_mm, plate.height_mm, 0.0}),
            project({plate.width_mm, 0.0, 0.0}), project({0.0, 0.0, 0.0})};
}

Place Camera::project(const Point &point) const {
    const Point from = sum(point, -1.0, position_);
    const double depth = dot(from, forward_);
    const double x = focal_px_ * dot(from, right_) / depth;
    const double y = focal_px_ * dot(from, down_) / depth;
    const double r2 = (x * x + y * y) / (0.25 * (1.0 * width_ * width_ + 1.0 * height_ * height_));
    const double stretch = 1.0 + distortion_ * r2;
    return {0.5 * width_ + stretch * x, 0.5 * height_ + stretch * y};
}

Point Camera::ray(Place place) const {
    const double x = place.x - 0.5 * width_;
    const double y = place.y - 0.5 * height_;
    const double seen = radius(place);
    double r = seen;
    for (int round = 0; round < 4; ++round) { // Newton's method for r (1 + k r^2) = seen
        r -= (r * (1.0 + distortion_ * r * r) - seen) / (1.0 + 3.0 * distortion_ * r * r);
    }
    const double stretch = seen > 0.0 ? r / seen : 1.0;
    return sum(sum(forward_, stretch * x / focal_px_, right_), stretch * y / focal_px_, down_);
}

double Camera::radius(Place place) const {
    return std::hypot(place.x - 0.5 * width_, place.y - 0.5 * height_) /
           (0.5 * std::hypot(width_, height_));
}

} // namespace cospot::rendering

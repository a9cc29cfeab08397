#include "plate_photo/strip_beside.h"

#include "shared/robust.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace cospot::plate_photo {

namespace {

constexpr int kLooks = 16;            ///< places along an edge
constexpr double kEndShare = 0.06;    ///< of an edge, at both ends, where its neighbours are near
constexpr double kFirstPx = 3.5;      ///< from the edge: nearer is the blur of the edge
constexpr double kDeepest = 0.3;      ///< of the way to the opposite edge
constexpr double kShare = 0.4;        ///< of the change at the edge
constexpr double kLeastChange = 0.15; ///< of the light, as a logarithm
constexpr float kDark = 8.0F;         ///< of 255: a camera's shares of less than that are noise

Place part_way(Place a, Place b, double share) {
    return {std::lerp(a.x, b.x, share), std::lerp(a.y, b.y, share)};
}

/// One of four edges, seen from its outside.
struct ViewedEdge {
    Place from, to;                   ///< along the edge
    Place opposite_from, opposite_to; ///< along the opposite one

    [[nodiscard]] double depth_px() const {
        return 0.5 * (distance(from, opposite_from) + distance(to, opposite_to));
    }

    [[nodiscard]] Place inside(double along, double px) const {
        const Place edge = part_way(from, to, along);
        const Place opposite = part_way(opposite_from, opposite_to, along);
        return part_way(edge, opposite, px / std::max(1.0, distance(edge, opposite)));
    }
};

/// How the light changes, at most places along an edge, over a way of `length_px` inwards about
/// `middle_px`: of the medians of the channels' logarithms the length.
double change_at(const ReducedPhoto &smooth, const ViewedEdge &edge, double middle_px,
                 double length_px) {
    const auto light = [&](const std::vector<float> &plane, Place place) {
        const int x = std::clamp(static_cast<int>(place.x), 0, smooth.width - 1);
        const int y = std::clamp(static_cast<int>(place.y), 0, smooth.height - 1);
        return plane[smooth.at(x, y)] + kDark;
    };
    double square = 0.0;
    for (const auto &plane : smooth.planes) {
        std::vector<double> changes;
        for (int look = 0; look < kLooks; ++look) {
            const double along = std::lerp(kEndShare, 1.0 - kEndShare, (look + 0.5) / kLooks);
            const Place outer = edge.inside(along, middle_px - 0.5 * length_px);
            const Place inner = edge.inside(along, middle_px + 0.5 * length_px);
            changes.push_back(std::log(light(plane, inner) / light(plane, outer)));
        }
        const double change = upper_median(std::move(changes));
        square += change * change;
    }
    return std::sqrt(square);
}

/// Both ways end on the strip's far side, so that a thin line is no border.
bool strip_at(const ReducedPhoto &smooth, const ViewedEdge &edge) {
    const double at_edge =
        std::max(change_at(smooth, edge, 0.0, 4.0), change_at(smooth, edge, 0.0, 6.0));
    const double least = std::max(kLeastChange, kShare * at_edge);
    for (double px = kFirstPx; px < kDeepest * edge.depth_px(); px += 0.5) {
        if (change_at(smooth, edge, px, 3.0) > least && change_at(smooth, edge, px, 5.0) > least) {
            return true;
        }
    }
    return false;
}

} // namespace

bool has_strip_beside(const ReducedPhoto &photo, const Corners &corners) {
    const ReducedPhoto smooth = smoothed(photo, 1);
    for (std::size_t i = 0; i < 4; ++i) {
        if (strip_at(smooth, {corners[i], corners[(i + 1) % 4], corners[(i + 3) % 4],
                              corners[(i + 2) % 4]})) {
            return true;
        }
    }
    return false;
}

} // namespace cospot::plate_photo

#include "plate_photo/corner_finder.h"

#include "plate_photo/edge_points.h"
#include "plate_photo/lens.h"
#include "plate_photo/plate_outline.h"
#include "plate_photo/reduced_photo.h"
#include "plate_photo/straight_edges.h"
#include "plate_photo/strip_beside.h"

#include <algorithm>

namespace cospot::plate_photo {

namespace {

constexpr int kSearchedSide = 400; ///< pixels of the reduced photo in which the plate is looked for
constexpr int kLeastSide = 100;
/// By what the likeliest outline has to lead: e^5, as 150 to 1.
constexpr double kLeastLead = 5.0;
constexpr double kLeastEvidence = 40.0;
constexpr double kLeastWeakest = 0.1; ///< evidence, by pixel of the weakest edge's length
constexpr double kLeastVisible = 0.3; ///< share of each edge

/// The edges at full size, near those of the reduced photo: first widely, then closely.
std::optional<StraightEdges> edges_at_full_size(const images::Image &photo,
                                                const PlateOutline &outline, double factor) {
    EdgePlaces places;
    double least_visible = 1.0;
    for (std::size_t i = 0; i < 4; ++i) {
        const auto at_full_size = [&](Place place) {
            return Place{factor * place.x, factor * place.y};
        };
        const EdgeCurve coarse{at_full_size(outline.corners[i]),
                               at_full_size(outline.corners[(i + 1) % 4]), 0.0};
        const double wide = std::max(1.0, factor / 3.0);
        const auto near = edge_points(photo, coarse, {4.0 * factor, wide, 2.5 * factor});
        const double close = std::max(1.0, factor / 10.0);
        auto found = edge_points(photo, near.curve, {2.5 * wide + 3.0, close, 2.0 * close});
        least_visible = std::min(least_visible, found.visible);
        places[i] = std::move(found.places);
    }
    if (least_visible < kLeastVisible) {
        return std::nullopt;
    }
    return straight_edges(places, lens_of(photo.width, photo.height));
}

bool inside(const images::Image &photo, const Corners &corners) {
    return std::all_of(corners.begin(), corners.end(), [&](Place place) {
        return place.x >= 0.0 && place.y >= 0.0 && place.x <= photo.width &&
               place.y <= photo.height;
    });
}

Corners in_reduced(Corners corners, double factor) {
    for (Place &place : corners) {
        place = {place.x / factor, place.y / factor};
    }
    return corners;
}

} // namespace

std::optional<Outline> find_corners(const images::Image &photo) {
    if (std::min(photo.width, photo.height) < kLeastSide) {
        return std::nullopt;
    }
    const ReducedPhoto reduced = reduced_photo(photo, kSearchedSide);
    const auto outline = plate_outline(reduced);
    if (!outline || !outline->alone || outline->evidence < kLeastEvidence ||
        outline->weakest < kLeastWeakest || outline->lead < kLeastLead) {
        return std::nullopt;
    }
    const auto edges = edges_at_full_size(photo, *outline, reduced.factor);
    if (!edges || !inside(photo, edges->outline.corners) ||
        has_strip_beside(reduced, in_reduced(edges->outline.corners, reduced.factor))) {
        return std::nullopt;
    }
    return edges->outline;
}

} // namespace cospot::plate_photo

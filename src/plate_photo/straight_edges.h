#pragma once

#include "plate_photo/plate_geometry.h"

#include <array>
#include <optional>
#include <vector>

namespace cospot::plate_photo {

/// The upper, right, lower and left edge, each as places where it is seen.
using EdgePlaces = std::array<std::vector<Place>, 4>;

/// Four straight lines through the edges, as a lens shows them. The lens bends lines only where
/// that makes the edges straighter than chance does; `lens` says where its centre is and how large
/// the photo. Places far from a line do not count (Tukey's biweight). None where an edge has fewer
/// than ten places, or neighbouring edges do not meet.
struct StraightEdges {
    Outline outline;
    std::array<double, 4> straight{}; ///< share of the places that lie on each edge
    double scatter_px = 0.0;          ///< of the places about the edges, standard
};
[[nodiscard]] std::optional<StraightEdges> straight_edges(const EdgePlaces &places, Lens lens);

} // namespace cospot::plate_photo

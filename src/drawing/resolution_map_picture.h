#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace cospot {

/// The map at one fraction.
struct DrawnMapPoint {
    double fraction = 0.0;
    double resolution = 0.0; ///< of the critical pair
    std::string pair;        ///< its name, whichever of the two leaves first
    bool is_outside_window = false;
};

/// A map of resolution over the volume fraction of the modifier, to be drawn. Fractions 0 to 1.
struct DrawnMap {
    std::string modifier;
    std::string plates; ///< what the picture says of the plate number; plain text
    std::vector<DrawnMapPoint> points;
    std::size_t best = 0; ///< position in the points
    double measured_from = 0.0;
    double measured_to = 1.0;
    std::vector<double> readings; ///< fractions at which something was measured
    double k_from = 1.0;
    double k_to = 10.0;
    double resolution_wanted = 1.5;
};

/// In a page the picture takes colours and hatching from it; alone it brings its own, black on
/// white, and a heading.
enum class MapFrame { page, alone };

/// Critical resolution over the fraction, the critical pairs named, the best fraction marked,
/// stretches where a k leaves the window hatched. Readable without colour. `map` needs two points
/// or more.
[[nodiscard]] std::string resolution_map_picture(const DrawnMap &map, MapFrame frame);

} // namespace cospot

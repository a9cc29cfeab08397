#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace cospot {

/// The diagram at one fraction.
struct DrawnWindowPoint {
    double fraction = 0.0;
    double resolution = 0.0; ///< of the worst pair
    std::string pair;        ///< its name, whichever of the two leaves first
    bool is_outside_window = false;
};

/// How well one pair is resolved at each point.
struct DrawnPair {
    std::string name;
    std::vector<double> resolution; ///< one a point
};

/// A stretch between two minima: positions in the points, both included.
struct DrawnWindow {
    std::size_t first = 0;
    std::size_t last = 0;
    std::size_t top = 0;
};

/// Resolution of the worst pair over the volume fraction of the modifier. Fractions 0 to 1.
struct DrawnWindowDiagram {
    std::string modifier;
    std::string plates; ///< what the picture says of the plate number; plain text
    std::vector<DrawnWindowPoint> points;
    std::size_t best = 0;               ///< position in the points
    std::vector<DrawnPair> pairs{};     ///< that are the worst somewhere
    std::vector<DrawnWindow> windows{}; ///< in the order of the fractions
    double measured_from = 0.0;
    double measured_to = 1.0;
    std::vector<double> readings; ///< fractions at which something was measured
    double k_from = 1.0;
    double k_to = 10.0;
    double resolution_wanted = 1.5;
};

/// In a page the picture takes colours and hatching from it; alone it brings its own, black on
/// white, and a heading.
enum class PictureFrame { page, alone };

/// The window diagram of R. J. Laub and J. H. Purnell (J. Chromatogr. 1975, 112, 71; from memory)
/// with resolution in place of relative retention: a line a pair, below the lowest of them the
/// windows, filled and numbered; the worst pairs named, the best fraction marked, stretches where a
/// k leaves its limits hatched. Readable without colour. `diagram` needs two points or more.
[[nodiscard]] std::string window_diagram_picture(const DrawnWindowDiagram &diagram,
                                                 PictureFrame frame);

} // namespace cospot

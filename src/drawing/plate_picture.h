#pragma once

#include "drawing/label_layout.h"

#include <string>
#include <vector>

namespace cospot {

/// How a spot is drawn: filled, hatched, empty or as a broken ring, so that no colour is needed to
/// tell.
enum class SpotKind { listed, unlisted, not_compared, standard };

/// A spot of a plate, to be drawn.
struct DrawnSpot {
    std::string key; ///< short label: a number, or a letter for a standard
    std::string lane;
    std::string title; ///< what it may be, in words
    double distance_mm = 0.0;
    double front_mm = 0.0;
    SpotKind kind = SpotKind::listed;
    bool is_noted_rf = false; ///< distances are on a front that nobody measured
};

/// The places of the labels, one a spot in their order. They do not overlap.
[[nodiscard]] std::vector<LabelBox> spot_labels(const std::vector<DrawnSpot> &spots);

/// A plate to scale in its height (start line, front, distances in mm, of spots noted as R_F that
/// only); lanes stand side by side in
/// the order of their first spots, as far apart as the labels need. `spots` must not be empty.
[[nodiscard]] std::string plate_picture(const std::vector<DrawnSpot> &spots,
                                        const std::string &title);

} // namespace cospot

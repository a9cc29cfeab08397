#pragma once

#include "plate_photo/plate_geometry.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace cospot::plate_photo {

/// How a plate was lit when the photo was taken.
enum class Light {
    white, ///< daylight or a lamp; with or without a stain: spots of any colour, mostly darker
    uv254, ///< a layer with an indicator glows green, spots are dark
    uv366, ///< spots glow on a dark layer
};

/// Where the start or the front lies across the plate: mm from the lower edge at the left edge, in
/// the middle and at the right edge; a parabola between them.
struct PlateLine {
    double left_mm = 0.0;
    double middle_mm = 0.0;
    double right_mm = 0.0;
    double uncertainty_mm = 0.0; ///< standard
    bool given = false;          ///< by the user; else seen in the photo
    bool drawn = false;          ///< seen as a line of pencil, not as what the eluent left
};

/// A spot in one lane. Places in mm from the plate's left and lower edges.
struct FoundSpot {
    double x_mm = 0.0;
    double y_mm = 0.0;           ///< of its densest part, as a ruler would read its middle
    double uncertainty_mm = 0.0; ///< of y_mm, standard: its size, its tail, noise, the geometry
    double low_mm = 0.0;         ///< its extent along the lane
    double high_mm = 0.0;
    double width_mm = 0.0;  ///< across
    double contrast = 0.0;  ///< largest change of the layer's light, 0 to 1
    double intensity = 0.0; ///< its sum of changes, per cent of the lane's: relative only
    bool tailing = false;
    bool overlapping = false;
    bool at_edge = false;       ///< of the plate: it may be cut off
    bool crooked_front = false; ///< the front under its lane is not where it is in the middle
    bool given = false;         ///< by the user
};

struct FoundLane {
    double x_mm = 0.0; ///< its middle, from the left edge
    double left_mm = 0.0;
    double right_mm = 0.0;
    std::vector<FoundSpot> spots; ///< from the start upwards
};

/// What the user says of a plate; the rest is found.
struct PlateSettings {
    std::optional<Light> light;
    std::optional<double> start_mm; ///< from the lower edge
    std::optional<double> front_mm; ///< from the lower edge
    std::vector<double> lanes_mm;   ///< middles from the left edge; empty: found
    /// The spots of a lane (from 1) instead of those that are found: mm from the lower edge.
    struct GivenSpots {
        std::size_t lane = 0;
        std::vector<double> y_mm;
    };
    std::vector<GivenSpots> spots;
};

struct FoundPlate {
    Light light = Light::white;
    std::optional<PlateLine> start; ///< none: neither seen nor given
    std::optional<PlateLine> front;
    std::vector<FoundLane> lanes;   ///< from left to right
    std::vector<std::string> notes; ///< sentences for the user
};

} // namespace cospot::plate_photo

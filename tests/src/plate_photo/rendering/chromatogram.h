#pragma once

#include "draws.h"
#include "spot_shape.h"

#include "plate_photo/found_plate.h"

#include <array>
#include <cstddef>
#include <vector>

namespace cospot::rendering {

enum class Difficulty { easy, usual, hard };

enum class SpotClass { plain, tailing, crescent, flat_topped, at_start, at_front };

/// A spot as it lies on the plate. Places in mm from the plate's left and lower edges.
struct TrueSpot {
    std::size_t lane = 0; ///< from 0
    double rf = 0.0;      ///< of its densest place, between start and front at its own x
    SpotShape shape;
    double centre_mm = 0.0; ///< mean place of what is on its vertical axis
    double low_mm = 0.0;    ///< extent along: a tenth of the greatest amount
    double high_mm = 0.0;
    double width_mm = 0.0; ///< across, at a tenth of the greatest amount
    /// Largest change of light in any colour channel, linear, over the brighter of layer and spot.
    double contrast = 0.0;
    std::array<double, 3>
        absorbs{}; ///< density in red, green, blue: the largest is 1; below 0: paler
    std::array<double, 3> glows{}; ///< light in red, green, blue instead: the largest is 1
    SpotClass kind = SpotClass::plain;
    bool overlapping = false; ///< with another of its lane: see `judge_overlaps`
    bool separable = true;    ///< has a maximum of its own along the lane
    double visibility = 0.0;  ///< in a photo: see visibility.h
};

/// A smear from the start upwards that is no spot.
struct Streak {
    double x_mm = 0.0, low_mm = 0.0, high_mm = 0.0, width_mm = 0.0, contrast = 0.0;
};

/// A line across the plate and how it can be seen.
struct TrueLine {
    plate_photo::PlateLine line;
    double pencil = 0.0;   ///< contrast of a pencil line; 0: there is none
    double wet_edge = 0.0; ///< step of light from the layer below it to the dry layer above
    double residue = 0.0;  ///< contrast of a band of what the eluent carries along
    bool visible = false;  ///< a user would see it in the photo
};

/// What was developed on a plate: the truth that the finder has to tell.
struct Chromatogram {
    plate_photo::PlateSize size;
    plate_photo::Light light = plate_photo::Light::white;
    TrueLine start, front;
    std::vector<double> lanes_mm; ///< middles
    std::vector<TrueSpot> spots;
    std::vector<Streak> streaks;
    bool stained = false;
};

/// On the parabola through the left edge, the middle and the right edge of a plate.
[[nodiscard]] double height_mm(const plate_photo::PlateLine &line, double x_mm, double width_mm);

[[nodiscard]] Chromatogram developed(plate_photo::Light light, Difficulty difficulty, Draws draws);

} // namespace cospot::rendering

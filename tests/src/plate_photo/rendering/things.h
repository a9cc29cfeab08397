#pragma once

#include "chromatogram.h"
#include "colour.h"
#include "draws.h"

#include <optional>
#include <vector>

namespace cospot::rendering {

/// What lies or is held over the plate and beside it: fingers, tweezers, a ruler. None covers a
/// spot.
class Things {
public:
    Things(const Chromatogram &plate, Difficulty difficulty, Draws draws);
    /// What is seen at a place (mm from the plate's lower left corner) with `below` under it; a
    /// pixel is this large there.
    [[nodiscard]] Colour over(Colour below, double x_mm, double y_mm, double pixel_mm) const;

private:
    /// A rod with round ends that narrows or widens towards its end.
    struct Rod {
        double x1, y1, x2, y2, radius1, radius2;
        Colour colour;
        bool shiny;
        double nail; ///< length of a nail at the end, in radii; 0: none
    };
    struct Ruler {
        double x, y, cos, sin; ///< its zero, and the direction in which it counts
        double length, width;
        Colour body, ink;
    };
    void hold_with_fingers(const Chromatogram &plate, Draws &draws);
    void hold_with_tweezers(const Chromatogram &plate, Draws &draws);
    void lay_ruler(const Chromatogram &plate, Draws &draws);
    [[nodiscard]] static Colour over_rod(const Rod &rod, Colour below, double x, double y,
                                         double pixel_mm);
    [[nodiscard]] static Colour over_ruler(const Ruler &ruler, Colour below, double x_mm,
                                           double y_mm, double pixel_mm);

    Colour lamp_; ///< what the lamp makes of white
    std::vector<Rod> rods_;
    std::optional<Ruler> ruler_;
};

} // namespace cospot::rendering

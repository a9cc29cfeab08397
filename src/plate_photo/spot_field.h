#pragma once

#include "plate_photo/channel.h"
#include "plate_photo/field.h"
#include "plate_photo/plate_lines.h"

#include <array>
#include <vector>

namespace cospot::plate_photo {

/// A signal averaged over about the size of a spot: what a spot of that size stands out in most
/// (the matched filter, north1963).
struct CalmSignal {
    Field signal; ///< about 0 where nothing is
    Field noise;  ///< its standard deviation, in large squares

    [[nodiscard]] double deviations_at(double x_mm, double y_mm) const {
        return value_at(signal, x_mm, y_mm) / value_at(noise, x_mm, y_mm);
    }
};

/// A signal as sharp as it was seen, to measure spots in, and without most of its noise, to decide
/// what is one.
struct ClearedSignal {
    Field sharp;
    std::array<CalmSignal, 3> calm; ///< for small, usual and large spots

    [[nodiscard]] const CalmSignal &usual() const { return calm[1]; }
    /// By how many deviations a place stands out of the noise, for the size of spot that suits it.
    [[nodiscard]] double deviations_at(double x_mm, double y_mm) const;
};

/// The signal of spots over a plate, and what is known of it.
struct SpotField {
    Field seen;                         ///< less bands across the plate and lines that were drawn
    Field broad;                        ///< what of `seen` the disc of a small spot fits into
    Field noise;                        ///< standard deviation of `seen`, in large squares
    ClearedSignal signal;               ///< `seen` without what is thin: strokes, specks, scratches
    std::vector<ClearedSignal> colours; ///< of the channels, less what `signal` has less
};

/// What lies at one height nearly everywhere is a band, and no spot: what the eluent left at its
/// front, a zone, the edge of a shadow. So much is taken from every cell of the row.
[[nodiscard]] SpotField spot_field(SpotSignal spots, const PlateLines &drawn);

/// Whether what is higher than half of the signal at a place goes on to an edge of the plate: so
/// do fingers, clips and rulers that lie over it, and spots do not.
[[nodiscard]] bool reaches_edge(const Field &signal, double x_mm, double y_mm);

/// Whether the disc of a small spot fits into what is highest near a place.
[[nodiscard]] bool is_broad(const SpotField &spots, double x_mm, double y_mm);

} // namespace cospot::plate_photo

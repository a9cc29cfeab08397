#pragma once

#include "drawing/chromatogram_picture.h"

#include <string>
#include <vector>

namespace cospot {

inline constexpr double kChromatogramWidth = 960.0;
inline constexpr double kChromatogramLeft = 24.0;
inline constexpr double kChromatogramRight = kChromatogramWidth - 24.0;
inline constexpr double kChromatogramBase = 348.0; ///< of the peaks
inline constexpr double kHighest = 104.0;          ///< top of the highest peak
inline constexpr double kLabelsTop = 44.0;         ///< room for labels begins below the index axis
inline constexpr double kIndexAxis = 36.0;
inline constexpr double kPictureHeight = 400.0;
inline constexpr double kTickRoom = 52.0; ///< pixels between two index ticks, at least

/// The times that the picture shows.
struct TimeAxis {
    double first_min = 0.0;
    double last_min = 1.0;

    [[nodiscard]] double x(double time_min) const {
        return kChromatogramLeft + (kChromatogramRight - kChromatogramLeft) *
                                       (time_min - first_min) / (last_min - first_min);
    }
};

/// The axis of time below the peaks.
[[nodiscard]] std::string time_ticks(const TimeAxis &axis);

/// The axis of retention indices that the peaks tell; without ticks where fewer than four tell one.
[[nodiscard]] UpperAxis index_axis(const std::vector<DrawnPeak> &peaks);

/// A second axis above the peaks; empty without ticks.
[[nodiscard]] std::string upper_axis(const UpperAxis &upper, const TimeAxis &axis);

/// The style class of a peak.
[[nodiscard]] const char *style_of(PeakKind kind);

/// A label in the room that it was given.
[[nodiscard]] std::string label_svg(const LabelBox &box);

} // namespace cospot

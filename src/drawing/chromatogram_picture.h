#pragma once

#include "drawing/axis_ticks.h"
#include "drawing/label_layout.h"
#include "shared/recorded_trace.h"

#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// How a peak is drawn: filled, hatched or empty, so that no colour is needed to tell.
enum class PeakKind { listed, unlisted, not_compared };

/// A peak of a chromatogram, to be drawn. Times in min, area and height in any unit.
struct DrawnPeak {
    std::string key;   ///< short label
    std::string title; ///< what it may be, in words
    double retention_time_min = 0.0;
    std::optional<double> index{}; ///< retention index, not extrapolated
    std::optional<double> area{};
    std::optional<double> height{};
    std::optional<double> start_min{};
    std::optional<double> end_min{};
    std::optional<double> width_half_min{};
    PeakKind kind = PeakKind::listed;
};

/// A second axis above the peaks.
struct UpperAxis {
    std::string title;
    std::vector<TimeTick> ticks; ///< in ascending order; none: no axis
};

/// What a reader must know of the picture to read it rightly.
struct ChromatogramPicture {
    std::string svg;
    std::string caption;          ///< plain text: what was known of shapes and heights
    std::vector<LabelBox> labels; ///< of the peaks that found room; they do not overlap
};

/// The peaks over time, with the axis given above; without one an axis of retention indices where
/// four or more peaks have one.
/// Shapes are Gaussian, from the width at half height, else from start and end, taken as two
/// standard deviations each way; else narrow and alike. Heights are as given, else area over
/// width, else alike. With `trace` that is drawn instead (see `trace_picture`). `peaks` must not be
/// empty.
[[nodiscard]] ChromatogramPicture chromatogram_picture(const std::vector<DrawnPeak> &peaks,
                                                       const std::string &title,
                                                       std::optional<UpperAxis> upper = {},
                                                       const RecordedTrace *trace = nullptr);

} // namespace cospot

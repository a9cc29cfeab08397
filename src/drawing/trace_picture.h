#pragma once

#include "drawing/chromatogram_picture.h"
#include "shared/recorded_trace.h"

#include <cstddef>
#include <string>
#include <vector>

namespace cospot {

/// The trace as it was recorded, with its baseline, the areas of its peaks between their borders,
/// and their numbers. Long traces are thinned so that no extreme is lost. A page zooms it (see
/// page.js): the trace lies in an inner picture of its own scale.
[[nodiscard]] ChromatogramPicture trace_picture(const RecordedTrace &trace,
                                                const std::vector<DrawnPeak> &peaks,
                                                const std::string &title, const UpperAxis &upper);

/// Indices of a signal in ascending order: of each of `parts` equal parts the first point, the
/// lowest, the highest and the last; all points where there are no more than four a part.
[[nodiscard]] std::vector<std::size_t> thinned(const std::vector<double> &signal,
                                               std::size_t parts);

} // namespace cospot

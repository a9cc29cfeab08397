#pragma once

#include "signal/found_peak.h"

#include <span>

namespace cospot::signal {

/// A small peak on the flank of a peak at least this many times as high is a rider (common
/// practice, no source).
inline constexpr double kRiderRatio = 10.0;

/// The peaks with the areas of riders by tangent skim instead of perpendicular drop: a straight
/// line from the valley between both, which touches the flank beyond the rider, parts the rider
/// from the flank; what lies below belongs to the large peak. A rider is a peak that shares a
/// border with one `ratio` times as high as the rider stands above the valley, and twice as high as
/// the rider in all; it lies after the large peak or before it. The line cuts off the rider's own
/// feet: areas come out too small, by a third in the worst of our trials. Area uncertainties stay.
/// `x` and `y` are the trace in which the peaks were found. Throws InputError as find_peaks does,
/// and unless `ratio` is at least 1.
[[nodiscard]] FoundPeaks skim_riders(FoundPeaks found, std::span<const double> x,
                                     std::span<const double> y, double ratio = kRiderRatio);

} // namespace cospot::signal

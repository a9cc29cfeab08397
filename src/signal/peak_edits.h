#pragma once

#include "signal/found_peak.h"

#include <span>

namespace cospot::signal {

// Changes by hand. Each takes the peaks as they were found in the trace `x`, `y`, and returns them
// with the change; peaks whose borders changed are measured anew, on the same baseline and noise.
// Places are in units of the axis. One that hits no peak, or several, throws an InputError that
// says which peaks there are; so does a trace that is not the one of the peaks.

/// A peak at the maximum within half a narrowest half width of `at`; where there is none, a
/// shoulder at `at` itself. Inside another peak it takes from it what lies beyond the lowest point
/// between both; elsewhere it reaches to the baseline, or to the next peak.
[[nodiscard]] FoundPeaks add_peak(const FoundPeaks &found, std::span<const double> x,
                                  std::span<const double> y, double at);

/// Without the peak within whose borders `near` lies. What it shared with neighbours stays out of
/// their areas: to join two peaks, drop one and move the other's border.
[[nodiscard]] FoundPeaks drop_peak(const FoundPeaks &found, std::span<const double> x,
                                   std::span<const double> y, double near);

/// The peak within whose borders `at` lies, as two peaks with a perpendicular there.
[[nodiscard]] FoundPeaks split_peak(const FoundPeaks &found, std::span<const double> x,
                                    std::span<const double> y, double at);

/// The border nearest to `from`, which must lie within a half width of it, moved to `to`; a border
/// that two peaks share moves for both. It must stay on its side of the apexes and not pass a
/// border of another peak.
[[nodiscard]] FoundPeaks move_border(const FoundPeaks &found, std::span<const double> x,
                                     std::span<const double> y, double from, double to);

} // namespace cospot::signal

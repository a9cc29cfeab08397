#pragma once

#include "signal/found_peak.h"
#include "signal/peak_measures.h"

#include <optional>
#include <span>

namespace cospot::signal {

/// What the user may set; what is not set is found from the trace. In units of the axis.
struct FinderSettings {
    std::optional<double> narrowest_half_width; ///< see scales.h
    std::optional<double> baseline_period;      ///< kBaselineWidths times the widest half width
    std::optional<double> smoothing_period;     ///< kSmoothingWidths times the narrowest half width
    std::optional<double> threshold;            ///< kThreshold; in deviations of the smoothed noise
    bool shoulders = true;
};

inline constexpr double kBaselineWidths = 20.0;
inline constexpr double kSmoothingWidths = 1.0;
/// Least height of a peak, and depth of a valley, in deviations of the smoothed noise. That is not
/// the S/N of pharmacopoeias, which is told of each peak. Chosen on generated traces: of noise and
/// drift alone it lets a peak through in fewer than 5 of 100 traces.
inline constexpr double kThreshold = 4.5;

/// Finds and measures the peaks of a signal over a rising axis, even or uneven, where needed on
/// lines of their own (local_baseline.h). Throws InputError
/// for a trace of fewer than 10 points, or as `require_trace`, and for settings not above 0.
/// Half of the peaks that lie so close that no maximum or shoulder is left are lost by every
/// method.
[[nodiscard]] FoundPeaks find_peaks(std::span<const double> x, std::span<const double> y,
                                    const FinderSettings &settings = {});

/// The trace on the baseline that was found, to measure peaks on it anew.
[[nodiscard]] CorrectedTrace corrected_trace(std::span<const double> x, std::span<const double> y,
                                             const FoundPeaks &found);

} // namespace cospot::signal

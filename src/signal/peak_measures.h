#pragma once

#include "signal/found_peak.h"

#include <cstddef>
#include <span>
#include <vector>

namespace cospot::signal {

/// A trace on a baseline of zero, as peaks are measured on it.
struct CorrectedTrace {
    std::span<const double> x;
    std::vector<double> raw;      ///< as the instrument gave it, spikes replaced
    std::vector<double> recorded; ///< less the baseline
    std::vector<double> smoothed_raw;
    std::vector<double> smoothed; ///< less the baseline
    std::vector<double>
        level; ///< 0 in dips, which smoothing bridges lest it rings beside them, else 1
    std::vector<double> free;        ///< 0 where a peak (or dip) is, else 1
    std::vector<BaselineLine> lines; ///< the stretches of the baseline that are straight
    Noise noise;
    UsedSettings used;
};

/// The points between which a peak lies. Neighbours share a point.
struct PeakPlace {
    std::size_t top = 0;
    std::size_t start = 0;
    std::size_t end = 0;
    bool shares_start = false;
    bool shares_end = false;
    bool is_shoulder = false;
};

/// The point nearest to a place of the axis.
[[nodiscard]] std::size_t point_at(std::span<const double> x, double at);

/// Measures one peak. The apex is that of a polynomial through the recorded points of its top, over
/// a width that grows with the noise; heights at 5 % and 50 % are met in the same way. Where an end
/// is shared, the apex may be shifted by the neighbour: half of the valley is taken to be its, and
/// to fade on the way to the apex.
[[nodiscard]] FoundPeak measure_peak(const CorrectedTrace &trace, const PeakPlace &place);

/// Measures all of them, and each with its next.
[[nodiscard]] std::vector<FoundPeak> measure_peaks(const CorrectedTrace &trace,
                                                   const std::vector<PeakPlace> &places);

} // namespace cospot::signal

#pragma once

#include "signal/local_fit.h"
#include "signal/noise.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace cospot::signal {

/// A peak as it was found and measured. Places and widths are in units of the axis, heights in
/// units of the signal above the baseline, areas in the product of both.
struct FoundPeak {
    double apex = 0.0;
    double apex_uncertainty = 0.0; ///< standard; of noise, and of what neighbours may shift
    double height = 0.0;
    double area = 0.0; ///< between the borders; by perpendicular drop at shared ones
    /// Standard; of noise and baseline, not of a drop's model. Twice it held 92 to 95 of 100
    /// generated areas in white noise, 81 to 83 in filtered and 75 to 81 in pink noise, whose slow
    /// waves no baseline tells.
    double area_uncertainty = 0.0;
    double start = 0.0;
    double end = 0.0;
    double half_width = 0.0; ///< twice the half that is seen, where a neighbour hides the other
    std::optional<double> symmetry;     ///< A_s = w_0.05 / (2 d): pheur2246; none where overlapped
    std::optional<double> plate_number; ///< from the half width; none unless the apex is above 0
    std::optional<double> resolution_to_next; ///< from half widths
    std::optional<double>
        peak_to_valley_to_next;            ///< H_p / H_v, of the smaller; if an end is shared
    std::optional<double> signal_to_noise; ///< 2 H / h: pheur2246; none of a trace without noise
    /// Over how many half widths h was read, 5 to 20; 0: not enough is free, and h is taken as six
    /// deviations of the recorded noise.
    double noise_half_widths = 0.0;
    bool is_shoulder = false;  ///< no maximum of its own; its place is rough
    bool is_cut_off = false;   ///< the trace ends before the peak does
    bool is_saturated = false; ///< its top is flat: height and area are too small
    bool shares_start = false; ///< its start is the end of the peak before
    bool shares_end = false;

    [[nodiscard]] bool shares_area() const { return shares_start || shares_end; }
};

/// What the finder worked with, given or found. In units of the axis.
struct UsedSettings {
    double narrowest_half_width = 0.0;
    double widest_half_width = 0.0;
    double baseline_period = 0.0; ///< of the first baseline
    double baseline_widths = 0.0; ///< period of the last, over the half widths around
    double smoothing_period = 0.0;
    double threshold = 0.0;   ///< in deviations of the smoothed noise
    bool widths_seen = false; ///< false: no peak was clear enough to show how wide peaks are
};

/// A stretch of the baseline that is a straight line under one group of peaks, and the points
/// beyond both ends through the means of which it is drawn.
struct BaselineLine {
    Range under;
    Range before;
    Range after;
};

struct FoundPeaks {
    std::vector<FoundPeak> peaks; ///< from left to right
    /// At each point of the trace: the lines under groups of peaks, elsewhere that of the whole
    /// trace.
    std::vector<double> baseline;
    std::vector<BaselineLine> lines; ///< from left to right
    Noise noise;
    UsedSettings used;
    std::vector<std::size_t> spikes; ///< points that were taken for spikes, and replaced
};

} // namespace cospot::signal

#include "signal/peak_finder.h"

#include "quantities/domain.h"
#include "signal/baseline.h"
#include "signal/local_baseline.h"
#include "signal/peak_places.h"
#include "signal/penalised_smoother.h"
#include "signal/scales.h"
#include "signal/spikes.h"

#include <algorithm>
#include <cmath>

namespace cospot::signal {

namespace {

constexpr std::size_t kLeastPoints = 10;
constexpr int kBaselineRounds = 2;
/// A baseline that follows faster drift is taken where it leaves less than this of the noise.
constexpr double kSoftBaselineWidths = 5.0;
constexpr double kSofterNoise = 0.5;
constexpr int kNoiseRounds = 6;
constexpr double kNoiseChange = 0.02;
/// A baseline may not follow waves longer than this many traces.
constexpr double kMostPeriod = 4.0;

double setting(const std::optional<double> &given, double found, std::string_view what) {
    quantities::require(!given || *given > 0.0, what, given.value_or(1.0),
                        fmt::format("{} above 0", what));
    return given.value_or(found);
}

UsedSettings settings_of(std::span<const double> x, std::span<const double> y,
                         const FinderSettings &given) {
    const Scales scales = find_scales(x, y);
    UsedSettings used;
    used.widths_seen = scales.seen;
    used.narrowest_half_width =
        setting(given.narrowest_half_width, scales.narrowest, "a narrowest half width");
    used.widest_half_width = std::max(scales.widest, used.narrowest_half_width);
    const double most = kMostPeriod * (x.back() - x.front());
    used.baseline_period =
        setting(given.baseline_period, std::min(most, kBaselineWidths * used.widest_half_width),
                "a period of the baseline");
    used.baseline_widths = used.baseline_period / used.widest_half_width;
    used.smoothing_period =
        setting(given.smoothing_period, kSmoothingWidths * used.narrowest_half_width,
                "a period of smoothing");
    used.threshold = setting(given.threshold, kThreshold, "a threshold");
    return used;
}

/// The signal is smoothed as it is: a straight baseline passes the smoother unchanged, and one that
/// has corners would ring in it.
void smooth(CorrectedTrace &trace, PenalisedSmoother &smoother) {
    trace.smoothed_raw = smoother.smooth(trace.raw, trace.level);
}

void put_on_baseline(CorrectedTrace &trace, const std::vector<double> &baseline) {
    for (std::size_t i = 0; i < baseline.size(); ++i) {
        trace.recorded[i] = trace.raw[i] - baseline[i];
        trace.smoothed[i] = trace.smoothed_raw[i] - baseline[i];
    }
}

/// A trace of which nothing is known yet; `y` without its spikes.
CorrectedTrace raw_trace(std::span<const double> x, std::vector<double> y, const UsedSettings &used,
                         PenalisedSmoother &smoother) {
    CorrectedTrace trace;
    trace.x = x;
    trace.raw = std::move(y);
    trace.recorded = trace.raw;
    trace.used = used;
    trace.free.assign(x.size(), 1.0);
    trace.level = trace.free;
    smooth(trace, smoother);
    trace.smoothed = trace.smoothed_raw;
    return trace;
}

/// Points at which neither a peak nor a dip is.
std::vector<double> quiet_points(const CorrectedTrace &trace,
                                 const std::vector<PeakPlace> &places) {
    std::vector<double> free =
        free_points(trace.x, trace.smoothed, places, trace.used.narrowest_half_width);
    for (std::size_t i = 0; i < free.size(); ++i) {
        free[i] *= trace.level[i];
    }
    return free;
}

/// Peaks tell where noise can be read, and noise what is a peak: repeated until both stand.
std::vector<PeakPlace> places_and_noise(CorrectedTrace &trace, PenalisedSmoother &smoother,
                                        const std::vector<double> &baseline, bool shoulders) {
    double deviation = trace.noise.deviation;
    if (deviation <= 0.0) { // the first time
        deviation = free_deviation(trace.smoothed, std::vector<double>(trace.x.size(), 0.0));
    }
    for (int round = 0; round < kNoiseRounds; ++round) {
        if (leave_dips_out(trace.x, trace.recorded, trace.smoothed, deviation,
                           trace.used.narrowest_half_width, trace.level)) {
            smooth(trace, smoother);
            put_on_baseline(trace, baseline);
        }
        trace.free = quiet_points(
            trace, find_places(trace.x, trace.smoothed, trace.free, deviation, trace.used, false));
        const double next = free_deviation(trace.smoothed, trace.free);
        const bool stands = std::abs(next - deviation) <= kNoiseChange * deviation;
        deviation = next;
        if (stands) {
            break;
        }
    }
    trace.noise.deviation = deviation;
    std::vector<PeakPlace> places =
        find_places(trace.x, trace.smoothed, trace.free, deviation, trace.used, shoulders);
    trace.free = quiet_points(trace, places);
    return places;
}

/// The baseline once more, through what is free, for peaks of the width that they have there.
std::vector<double> local_baseline(const CorrectedTrace &trace,
                                   const std::vector<PeakPlace> &places, double widths,
                                   const std::vector<double> &last) {
    std::vector<double> periods = local_half_widths(trace.x, trace.smoothed, places, trace.used);
    for (double &period : periods) {
        period *= widths;
    }
    return baseline_between_peaks(trace.x, trace.raw, trace.free, periods,
                                  trace.used.narrowest_half_width, last);
}

/// Whether the trace drifts so fast that a softer baseline leaves far less of it.
bool drifts_fast(const CorrectedTrace &trace, PenalisedSmoother &smoother,
                 const std::vector<PeakPlace> &places, const std::vector<double> &baseline) {
    std::vector<double> left = local_baseline(trace, places, kSoftBaselineWidths, baseline);
    for (std::size_t i = 0; i < left.size(); ++i) {
        left[i] = trace.raw[i] - left[i];
    }
    return free_deviation(smoother.smooth(left, trace.level), trace.free) <
           kSofterNoise * trace.noise.deviation;
}

} // namespace

FoundPeaks find_peaks(std::span<const double> x, std::span<const double> y,
                      const FinderSettings &settings) {
    require_trace(x, y, kLeastPoints);
    FoundPeaks found;
    std::vector<double> clean(y.begin(), y.end());
    found.spikes = replace_spikes(clean);
    const UsedSettings used = settings_of(x, clean, settings);
    PenalisedSmoother smoother(x, used.smoothing_period);
    CorrectedTrace trace = raw_trace(x, std::move(clean), used, smoother);
    found.baseline = arpls_baseline(x, trace.raw, used.baseline_period, used.narrowest_half_width);
    put_on_baseline(trace, found.baseline);
    std::vector<PeakPlace> places =
        places_and_noise(trace, smoother, found.baseline, settings.shoulders);
    const auto draw_again = [&] {
        for (int round = 0; round < kBaselineRounds; ++round) {
            found.baseline =
                local_baseline(trace, places, trace.used.baseline_widths, found.baseline);
            put_on_baseline(trace, found.baseline);
            places = places_and_noise(trace, smoother, found.baseline, settings.shoulders);
        }
    };
    draw_again();
    if (!settings.baseline_period && drifts_fast(trace, smoother, places, found.baseline)) {
        trace.used.baseline_widths = kSoftBaselineWidths;
        draw_again();
    }
    trace.noise = read_noise(x, trace.recorded, trace.smoothed, trace.free,
                             used.narrowest_half_width, used.widest_half_width);
    found.noise = trace.noise;
    found.used = trace.used;
    draw_local_baselines(trace, places, found.baseline);
    put_on_baseline(trace, found.baseline);
    found.lines = trace.lines;
    found.peaks = measure_peaks(trace, places);
    return found;
}

CorrectedTrace corrected_trace(std::span<const double> x, std::span<const double> y,
                               const FoundPeaks &found) {
    require_trace(x, y, kLeastPoints);
    std::vector<double> clean(y.begin(), y.end());
    replace_spikes(clean);
    PenalisedSmoother smoother(x, found.used.smoothing_period);
    CorrectedTrace trace = raw_trace(x, std::move(clean), found.used, smoother);
    trace.noise = found.noise;
    trace.lines = found.lines;
    put_on_baseline(trace, found.baseline);
    if (leave_dips_out(x, trace.recorded, trace.smoothed, trace.noise.deviation,
                       trace.used.narrowest_half_width, trace.level)) {
        smooth(trace, smoother);
        put_on_baseline(trace, found.baseline);
    }
    for (const FoundPeak &peak : found.peaks) {
        const auto from = std::lower_bound(x.begin(), x.end(), peak.start) - x.begin();
        const auto to = std::upper_bound(x.begin(), x.end(), peak.end) - x.begin();
        std::fill(trace.free.begin() + from, trace.free.begin() + to, 0.0);
    }
    return trace;
}

} // namespace cospot::signal

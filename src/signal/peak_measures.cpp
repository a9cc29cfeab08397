#include "signal/peak_measures.h"

#include "quantities/peak_shape.h"
#include "signal/local_fit.h"
#include "signal/maxima.h"
#include "signal/penalised_smoother.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace cospot::signal {

namespace {

/// Reach of the polynomial through a top, in half widths: at a height of 100 deviations of the
/// noise, and its bounds. It balances noise, which falls with reach^1.5, and the fifth derivative
/// of tailing peaks, which rises with reach^4 (chosen on generated traces).
constexpr double kTopReach = 0.35;
constexpr double kTopReachPower = 0.2;
constexpr double kLeastTopReach = 0.15;
constexpr double kMostTopReach = 0.6;
constexpr int kTopDegree = 3;
/// Where the polynomial of a tailing peak tops differs from the peak by so much, in half widths
/// (chosen on generated traces).
constexpr double kModelUncertainty = 0.001;
constexpr double kFlankReach = 0.2;  ///< of the line of degree 2 through a flank, in half widths
constexpr double kValleyShare = 0.5; ///< of a valley, taken to be the neighbour's
/// Where a shoulder lies, from its second derivative, in half widths (measured on generated
/// traces).
constexpr double kShoulderUncertainty = 0.15;
constexpr double kSaturatedShare = 0.25;  ///< of the half width, that a flat top is long at least
constexpr double kLeastWidthShare = 0.25; ///< of the narrowest half width, that a peak is wide
constexpr std::size_t kSaturatedPoints = 4;
constexpr double kCutOffShare = 0.05; ///< of the height, that is left at the end of the trace
constexpr double kRangeOfDeviation = 6.0;
/// Variance of a baseline under a peak, times the period, over the noise's power. That of a curve
/// through points on both sides would be 3 / (8 sqrt 2) 2 pi = 1.7; under a peak it has none, and
/// so much that areas in white noise are covered as stated (chosen on generated traces).
constexpr double kBaselineVariance = 20.0;

/// Places where the signal falls to `share` of the height, on both sides; refined on the recorded
/// points.
struct Sides {
    Fall before, after;
};

double refined_fall(const CorrectedTrace &trace, const PeakPlace &place, double at, double level,
                    double half_width) {
    double place_now = at;
    for (int round = 0; round < 3; ++round) {
        const auto fit = local_fit(trace.x, trace.recorded, place_now, kFlankReach * half_width, 2,
                                   {place.start, place.end + 1});
        if (!fit || fit->slope == 0.0) {
            return at;
        }
        place_now += (level - fit->value) / fit->slope;
        if (!(std::abs(place_now - at) < 0.3 * half_width)) {
            return at;
        }
    }
    return place_now;
}

Sides falls(const CorrectedTrace &trace, const PeakPlace &place, double level) {
    return {fall_to(trace.x, trace.smoothed, level, place.top, place.start),
            fall_to(trace.x, trace.smoothed, level, place.top, place.end)};
}

/// The width from how the smoothed top bends, as if it were a Gaussian.
double bent_width(const CorrectedTrace &trace, const PeakPlace &place) {
    const double reach = 0.5 * trace.used.narrowest_half_width;
    const auto fit =
        local_fit(trace.x, trace.smoothed, trace.x[place.top], reach, 2, {0, trace.x.size()});
    const double height = trace.smoothed[place.top];
    if (!fit || fit->curvature >= 0.0 || height <= 0.0) {
        return trace.used.narrowest_half_width;
    }
    return std::sqrt(8.0 * std::numbers::ln2 * height / -fit->curvature);
}

double width_of(const CorrectedTrace &trace, const PeakPlace &place, const Sides &half,
                double apex) {
    const double before = apex - half.before.x;
    const double after = half.after.x - apex;
    double width = 0.0;
    if (half.before.found && half.after.found) {
        width = before + after;
    } else if (half.before.found || half.after.found) {
        width = 2.0 * (half.before.found ? before : after);
    } else {
        width = bent_width(trace, place);
    }
    // Noise may narrow a weak one to nothing.
    return std::max(width, kLeastWidthShare * trace.used.narrowest_half_width);
}

/// First and last of the points that are equally the highest, one after another, before a baseline
/// bends them.
Range flat_top(const CorrectedTrace &trace, const PeakPlace &place) {
    const std::vector<double> &raw = trace.raw;
    const std::size_t room = (place.end - place.start) / 4; // the far foot may lie on a high drift
    std::size_t top = place.top;
    for (std::size_t i = std::max(place.start, place.top - std::min(place.top, room));
         i <= std::min(place.end, place.top + room); ++i) {
        top = raw[i] > raw[top] ? i : top;
    }
    const double slack = 1e-9 * std::abs(raw[top]) + 1e-3 * trace.noise.recorded;
    Range flat{top, top};
    while (flat.end < place.end && raw[flat.end + 1] >= raw[top] - slack) {
        ++flat.end;
    }
    while (flat.begin > place.start && raw[flat.begin - 1] >= raw[top] - slack) {
        --flat.begin;
    }
    return flat;
}

void measure_saturation(const CorrectedTrace &trace, const PeakPlace &place, FoundPeak &peak) {
    const Range flat = flat_top(trace, place);
    const double length = trace.x[flat.end] - trace.x[flat.begin];
    if (flat.end - flat.begin + 1 >= kSaturatedPoints &&
        length >= kSaturatedShare * peak.half_width) {
        peak.is_saturated = true;
        peak.apex = 0.5 * (trace.x[flat.begin] + trace.x[flat.end]);
        peak.apex_uncertainty = length / std::sqrt(12.0);
        peak.height = trace.recorded[flat.begin];
    }
}

/// How far a neighbour behind this border may draw the apex.
double shift_by_neighbour(const CorrectedTrace &trace, std::size_t border, double apex,
                          double curvature) {
    const double valley = std::max(0.0, trace.smoothed[border]);
    const double way = std::max(std::abs(trace.x[border] - apex), mean_step(trace.x));
    return kValleyShare * valley / way / std::abs(curvature);
}

void measure_top(const CorrectedTrace &trace, const PeakPlace &place, FoundPeak &peak) {
    const double relative = trace.noise.recorded / std::max(peak.height, 1e-300);
    const double room = std::min(peak.apex - trace.x[place.start], trace.x[place.end] - peak.apex);
    const double wanted =
        peak.half_width * std::clamp(kTopReach * std::pow(100.0 * relative, kTopReachPower),
                                     kLeastTopReach, kMostTopReach);
    const double reach = std::min(wanted, std::max(room, 0.25 * peak.half_width));
    std::optional<LocalFit> fit;
    double apex = peak.apex;
    for (int round = 0; round < 4; ++round) {
        fit = local_fit(trace.x, trace.recorded, apex, reach, kTopDegree, {0, trace.x.size()});
        if (!fit || fit->curvature >= 0.0) {
            break;
        }
        apex -= std::clamp(fit->slope / fit->curvature, -0.25 * reach, 0.25 * reach);
    }
    if (!fit || fit->curvature >= 0.0 || std::abs(apex - peak.apex) > reach) {
        peak.apex_uncertainty = 0.25 * peak.half_width;
        return;
    }
    peak.apex = apex;
    peak.height = fit->value;
    const auto points = trace.x.subspan(fit->first, fit->slope_factors.size());
    double variance = variance_of_sum(trace.noise, points, fit->slope_factors) /
                      (fit->curvature * fit->curvature);
    variance += std::pow(kModelUncertainty * peak.half_width, 2);
    if (place.shares_start) {
        variance += std::pow(shift_by_neighbour(trace, place.start, apex, fit->curvature), 2);
    }
    if (place.shares_end) {
        variance += std::pow(shift_by_neighbour(trace, place.end, apex, fit->curvature), 2);
    }
    peak.apex_uncertainty = std::min(std::sqrt(variance), 0.5 * peak.half_width);
}

/// By which the points of a range enter the area between the first and the last of them.
std::vector<double> trapezoids(std::span<const double> points) {
    std::vector<double> factors(points.size(), 0.0);
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
        const double half = 0.5 * (points[i + 1] - points[i]);
        factors[i] += half;
        factors[i + 1] += half;
    }
    return factors;
}

/// Variance of an area on a line, whose ends are means of points with the same noise.
double variance_on_line(const CorrectedTrace &trace, const BaselineLine &line, std::size_t start,
                        const std::vector<double> &area_factors) {
    const std::size_t begin = line.before.begin;
    std::vector<double> factors(line.after.end - begin, 0.0);
    double length = 0.0;
    double moment = 0.0;
    for (std::size_t i = 0; i < area_factors.size(); ++i) {
        factors[start - begin + i] += area_factors[i];
        length += area_factors[i];
        moment += area_factors[i] * trace.x[start + i];
    }
    const double first = trace.x[line.under.begin];
    const double last = trace.x[line.under.end - 1];
    const double of_last = (moment - length * first) / (last - first);
    const auto take = [&](const Range &points, double part) {
        for (std::size_t i = points.begin; i < points.end; ++i) {
            factors[i - begin] -= part / static_cast<double>(points.end - points.begin);
        }
    };
    take(line.before, length - of_last);
    take(line.after, of_last);
    return variance_of_sum(trace.noise, trace.x.subspan(begin, factors.size()), factors);
}

/// Variance of an area on the baseline of the whole trace.
double variance_on_curve(const CorrectedTrace &trace, std::span<const double> points,
                         const std::vector<double> &factors, double half_width) {
    double power = trace.noise.covariance.front();
    for (std::size_t lag = 1; lag < trace.noise.covariance.size(); ++lag) {
        power += 2.0 * trace.noise.covariance[lag];
    }
    power = trace.noise.bin * std::max(power, trace.noise.covariance.front());
    const double length = points.back() - points.front();
    const double width =
        std::clamp(half_width, trace.used.narrowest_half_width, trace.used.widest_half_width);
    const double baseline = kBaselineVariance * power / (trace.used.baseline_widths * width);
    return variance_of_sum(trace.noise, points, factors) + length * length * baseline;
}

void measure_area(const CorrectedTrace &trace, const PeakPlace &place, FoundPeak &peak) {
    const auto points = trace.x.subspan(place.start, place.end - place.start + 1);
    const std::vector<double> factors = trapezoids(points);
    peak.area = 0.0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        peak.area += factors[i] * trace.recorded[place.start + i];
    }
    const auto line =
        std::find_if(trace.lines.begin(), trace.lines.end(), [&](const BaselineLine &candidate) {
            return candidate.under.begin <= place.start && place.end < candidate.under.end;
        });
    peak.area_uncertainty = std::sqrt(
        line != trace.lines.end() ? variance_on_line(trace, *line, place.start, factors)
                                  : variance_on_curve(trace, points, factors, peak.half_width));
}

void measure_shape(const CorrectedTrace &trace, const PeakPlace &place, FoundPeak &peak) {
    Sides half = falls(trace, place, 0.5 * peak.height);
    for (Fall *fall : {&half.before, &half.after}) {
        if (fall->found) {
            fall->x = refined_fall(trace, place, fall->x, 0.5 * peak.height, peak.half_width);
        }
    }
    peak.half_width = width_of(trace, place, half, peak.apex);
    if (peak.apex > 0.0) {
        peak.plate_number = quantities::plate_number_from_half_width(peak.apex, peak.half_width);
    }
    const double level = 0.05 * peak.height;
    const Sides low = falls(trace, place, level);
    if (low.before.found && low.after.found && level > trace.noise.deviation) {
        const double before = refined_fall(trace, place, low.before.x, level, peak.half_width);
        const double after = refined_fall(trace, place, low.after.x, level, peak.half_width);
        if (before < peak.apex) {
            peak.symmetry = (after - before) / (2.0 * (peak.apex - before));
        }
    }
}

void measure_noise(const CorrectedTrace &trace, FoundPeak &peak) {
    const auto range = noise_range(trace.x, trace.recorded, trace.free, peak.apex, peak.half_width);
    peak.noise_half_widths = range ? range->half_widths : 0.0;
    const double h = range ? range->range : kRangeOfDeviation * trace.noise.recorded;
    if (h > 0.0) {
        peak.signal_to_noise = 2.0 * peak.height / h;
    }
}

void measure_with_next(const CorrectedTrace &trace, FoundPeak &peak, const FoundPeak &next) {
    if (peak.apex > 0.0 && next.apex >= peak.apex) {
        peak.resolution_to_next = quantities::resolution_from_half_widths(
            {peak.apex, peak.half_width}, {next.apex, next.half_width});
    }
    const double valley = trace.smoothed[point_at(trace.x, peak.end)];
    if (peak.shares_end && !peak.is_shoulder && !next.is_shoulder && valley > 0.0) {
        peak.peak_to_valley_to_next = std::min(peak.height, next.height) / valley;
    }
}

} // namespace

std::size_t point_at(std::span<const double> x, double at) {
    const auto after =
        static_cast<std::size_t>(std::lower_bound(x.begin(), x.end(), at) - x.begin());
    if (after == 0 || after == x.size()) {
        return after == 0 ? 0 : x.size() - 1;
    }
    return at - x[after - 1] < x[after] - at ? after - 1 : after;
}

FoundPeak measure_peak(const CorrectedTrace &trace, const PeakPlace &place) {
    FoundPeak peak;
    peak.apex = trace.x[place.top];
    peak.height = trace.smoothed[place.top];
    peak.start = trace.x[place.start];
    peak.end = trace.x[place.end];
    peak.shares_start = place.shares_start;
    peak.shares_end = place.shares_end;
    peak.is_shoulder = place.is_shoulder;
    peak.half_width = width_of(trace, place, falls(trace, place, 0.5 * peak.height), peak.apex);
    if (place.is_shoulder) {
        peak.apex_uncertainty = kShoulderUncertainty * peak.half_width;
    } else {
        measure_top(trace, place, peak);
    }
    if (!place.is_shoulder) {
        measure_saturation(trace, place, peak);
    }
    measure_shape(trace, place, peak);
    measure_area(trace, place, peak);
    measure_noise(trace, peak);
    const double left = kCutOffShare * peak.height;
    peak.is_cut_off = (place.start == 0 && trace.smoothed.front() > left) ||
                      (place.end + 1 == trace.x.size() && trace.smoothed.back() > left);
    return peak;
}

std::vector<FoundPeak> measure_peaks(const CorrectedTrace &trace,
                                     const std::vector<PeakPlace> &places) {
    std::vector<FoundPeak> peaks;
    for (const PeakPlace &place : places) {
        peaks.push_back(measure_peak(trace, place));
    }
    for (std::size_t i = 0; i + 1 < peaks.size(); ++i) {
        measure_with_next(trace, peaks[i], peaks[i + 1]);
    }
    return peaks;
}

} // namespace cospot::signal

#include "signal/emg_fit.h"

#include "signal/peak_finder.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace cospot::signal {

namespace {

constexpr int kPeakUnknowns = 4; ///< ln height scale, place, ln sigma, ln tau
constexpr int kFitRounds = 200;
constexpr double kMostFitPoints = 600; ///< of a group; of more every second (third, ...) counts
constexpr double kLeastTau = 0.02;     ///< over sigma: a Gaussian, as far as a signal shows
constexpr double kMostTau = 5.0;
constexpr double kSigmaRoom = 3.0;
constexpr double kMisfitShare = 0.03;
constexpr double kMisfitDeviations = 3.0;
constexpr double kSettled = 1e-9; ///< relative fall of the squares in the round that ends it
const double kSigmasPerHalfWidth = 1.0 / std::sqrt(8.0 * std::log(2.0));

using Vector = Eigen::VectorXd;
using Matrix = Eigen::MatrixXd;

/// What is fitted, and between which bounds.
struct Problem {
    std::vector<double> x, y;
    Vector start, low, high;
};

ExponentialGaussian peak_of(const Vector &unknowns, Eigen::Index k) {
    const Eigen::Index at = kPeakUnknowns * k;
    const double sigma = std::exp(unknowns(at + 2));
    return {.area = std::exp(unknowns(at)),
            .mean = unknowns(at + 1),
            .sigma = sigma,
            .tau = std::exp(unknowns(at + 3)) * sigma};
}

Vector residuals(const Problem &problem, const Vector &unknowns) {
    Vector left(static_cast<Eigen::Index>(problem.x.size()));
    for (Eigen::Index i = 0; i < left.size(); ++i) {
        left(i) = problem.y[static_cast<std::size_t>(i)];
        for (Eigen::Index k = 0; k < unknowns.size() / kPeakUnknowns; ++k) {
            left(i) -= height_at(peak_of(unknowns, k), problem.x[static_cast<std::size_t>(i)]);
        }
    }
    return left;
}

/// Slopes of the model, by differences of the one peak that each unknown belongs to.
Matrix slopes(const Problem &problem, const Vector &unknowns) {
    Matrix result(static_cast<Eigen::Index>(problem.x.size()), unknowns.size());
    for (Eigen::Index j = 0; j < unknowns.size(); ++j) {
        const Eigen::Index k = j / kPeakUnknowns;
        const double unit = j % kPeakUnknowns == 1 ? peak_of(unknowns, k).sigma : 1.0;
        const double step = 1e-5 * unit;
        Vector more = unknowns;
        Vector less = unknowns;
        more(j) += step;
        less(j) -= step;
        const ExponentialGaussian above = peak_of(more, k);
        const ExponentialGaussian below = peak_of(less, k);
        for (Eigen::Index i = 0; i < result.rows(); ++i) {
            const double x = problem.x[static_cast<std::size_t>(i)];
            result(i, j) = (height_at(above, x) - height_at(below, x)) / (2.0 * step);
        }
    }
    return result;
}

/// Levenberg and Marquardt's steps, cut off at the bounds.
Vector solved(const Problem &problem) {
    Vector now = problem.start;
    Vector left = residuals(problem, now);
    double damping = 1e-3;
    for (int round = 0; round < kFitRounds && damping < 1e12; ++round) {
        const Matrix slope = slopes(problem, now);
        const Matrix normal = slope.transpose() * slope;
        const Vector right = slope.transpose() * left;
        bool settled = false;
        for (; damping < 1e12; damping *= 4.0) {
            Matrix damped = normal;
            damped.diagonal() += damping * (normal.diagonal().array() + 1e-300).matrix();
            const Vector next =
                (now + damped.ldlt().solve(right)).cwiseMax(problem.low).cwiseMin(problem.high);
            const Vector next_left = residuals(problem, next);
            const double fall = left.squaredNorm() - next_left.squaredNorm();
            if (fall > 0.0) {
                settled = fall < kSettled * left.squaredNorm();
                now = next;
                left = next_left;
                damping = std::max(damping / 8.0, 1e-12);
                break;
            }
        }
        if (settled) {
            break;
        }
    }
    return now;
}

Problem problem_of(const CorrectedTrace &trace, std::span<const FoundPeak> group) {
    Problem problem;
    const std::size_t first = point_at(trace.x, group.front().start);
    const std::size_t last = point_at(trace.x, group.back().end);
    const auto stride =
        static_cast<std::size_t>(std::ceil(static_cast<double>(last - first + 1) / kMostFitPoints));
    for (std::size_t i = first; i <= last; i += stride) {
        problem.x.push_back(trace.x[i]);
        problem.y.push_back(trace.recorded[i]);
    }
    const auto size = kPeakUnknowns * static_cast<Eigen::Index>(group.size());
    problem.start.resize(size);
    problem.low.resize(size);
    problem.high.resize(size);
    Eigen::Index at = 0;
    for (const FoundPeak &peak : group) {
        const double sigma = std::max(peak.half_width, 1e-12) * kSigmasPerHalfWidth;
        const double room = (peak.is_shoulder ? 1.0 : 0.5) * peak.half_width;
        const double height = std::max(peak.height, trace.noise.recorded + 1e-300);
        const double area = std::log(height * sigma * 2.5066);
        const double tau = std::log(0.3);
        problem.start.segment(at, 4) << area, peak.apex - 0.3 * sigma, std::log(0.9 * sigma), tau;
        problem.low.segment(at, 4) << area - 5.0, peak.apex - 2.0 * room,
            std::log(sigma / kSigmaRoom), std::log(kLeastTau);
        problem.high.segment(at, 4) << area + 3.0, peak.apex + room, std::log(sigma * kSigmaRoom),
            std::log(kMostTau);
        at += kPeakUnknowns;
    }
    return problem;
}

/// Whether an unknown ran to a bound; the least tau is a Gaussian, and no fault.
bool is_at_bound(const Problem &problem, const Vector &unknowns) {
    for (Eigen::Index j = 0; j < unknowns.size(); ++j) {
        const bool least_tau = j % kPeakUnknowns == 3;
        if (unknowns(j) >= problem.high(j) || (unknowns(j) <= problem.low(j) && !least_tau)) {
            return true;
        }
    }
    return false;
}

GroupFit fit_group(const CorrectedTrace &trace, const FoundPeaks &found, std::size_t first,
                   std::size_t count) {
    GroupFit fit{.first = first, .count = count};
    const std::span<const FoundPeak> group(found.peaks.data() + first, count);
    if (count > kMostFitted) {
        fit.outcome = FitOutcome::kTooManyPeaks;
        return fit;
    }
    double highest = 0.0;
    for (const FoundPeak &peak : group) {
        highest = std::max(highest, peak.height);
        if (peak.is_saturated || peak.is_cut_off) {
            fit.outcome = FitOutcome::kSaturated;
            return fit;
        }
    }
    const Problem problem = problem_of(trace, group);
    if (problem.x.size() <= kPeakUnknowns * count) {
        fit.outcome = FitOutcome::kTooFewPoints;
        return fit;
    }
    const Vector unknowns = solved(problem);
    fit.residual = std::sqrt(residuals(problem, unknowns).squaredNorm() /
                             static_cast<double>(problem.x.size()));
    if (is_at_bound(problem, unknowns)) {
        fit.outcome = FitOutcome::kOutOfBounds;
    } else if (fit.residual >
               std::hypot(kMisfitDeviations * trace.noise.recorded, kMisfitShare * highest)) {
        fit.outcome = FitOutcome::kMisfit;
    } else {
        for (Eigen::Index k = 0; k < static_cast<Eigen::Index>(count); ++k) {
            fit.peaks.push_back(peak_of(unknowns, k));
        }
    }
    return fit;
}

} // namespace

std::vector<GroupFit> fit_groups(const FoundPeaks &found, std::span<const double> x,
                                 std::span<const double> y) {
    const CorrectedTrace trace = corrected_trace(x, y, found);
    std::vector<GroupFit> fits;
    for (std::size_t first = 0; first < found.peaks.size();) {
        std::size_t last = first;
        while (last + 1 < found.peaks.size() && found.peaks[last].shares_end) {
            ++last;
        }
        if (last > first) {
            fits.push_back(fit_group(trace, found, first, last - first + 1));
        }
        first = last + 1;
    }
    return fits;
}

FoundPeaks with_fits(FoundPeaks found, const std::vector<GroupFit> &fits) {
    for (const GroupFit &fit : fits) {
        for (std::size_t k = 0; k < fit.peaks.size(); ++k) {
            FoundPeak &peak = found.peaks.at(fit.first + k);
            peak.apex = apex_of(fit.peaks[k]);
            peak.height = height_at(fit.peaks[k], peak.apex);
            peak.half_width = half_width_of(fit.peaks[k]);
            peak.area = fit.peaks[k].area;
        }
    }
    return found;
}

} // namespace cospot::signal

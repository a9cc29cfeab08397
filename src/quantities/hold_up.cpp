#include "quantities/hold_up.h"

#include "quantities/domain.h"

#include <boost/math/tools/minima.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace cospot::quantities {

namespace {

/// A result of 0 may come out as a rounding error below it (times that are adjusted already).
constexpr double kRounding = 1e-9;

[[noreturn]] void refuse_spacing() {
    throw InputError({},
                     "homologues spaced so that no hold-up time from 0 to below the first of them "
                     "fits",
                     "the widening spacing of an isothermal or isocratic run, or a measured "
                     "hold-up time");
}

double plausible_hold_up(double hold_up_min, double first_time_min) {
    if (hold_up_min < -kRounding * first_time_min || hold_up_min >= first_time_min) {
        refuse_spacing();
    }
    return std::max(hold_up_min, 0.0);
}

/// Share of the variance of log(t - t_M) that its regression on carbon number leaves, 0..1.
double unexplained_share(const std::vector<LadderPoint> &points, double hold_up_min) {
    const auto log_adjusted = [&](const LadderPoint &point) {
        return std::log(point.retention_time_min - hold_up_min);
    };
    const auto count = static_cast<double>(points.size());
    double mean_x = 0.0;
    double mean_y = 0.0;
    for (const LadderPoint &point : points) {
        mean_x += point.carbon / count;
        mean_y += log_adjusted(point) / count;
    }
    double sum_xx = 0.0;
    double sum_xy = 0.0;
    for (const LadderPoint &point : points) {
        sum_xx += std::pow(point.carbon - mean_x, 2);
        sum_xy += (point.carbon - mean_x) * (log_adjusted(point) - mean_y);
    }
    double residual = 0.0;
    double total = 0.0;
    for (const LadderPoint &point : points) {
        const double y = log_adjusted(point) - mean_y;
        residual += std::pow(y - sum_xy / sum_xx * (point.carbon - mean_x), 2);
        total += y * y;
    }
    return residual / total;
}

/// The best hold-up time below the first member, negative ones included: a negative one tells that
/// the spacing is too even. Trial values are t_M = t_1 - exp(u), from just below the first time to
/// the negative of it; a coarse scan guards against a side minimum.
double best_hold_up(const std::vector<LadderPoint> &points) {
    constexpr int kScanSteps = 200;
    const double first_min = points.front().retention_time_min;
    const double u_low = std::log(1e-6 * first_min);
    const double width = (std::log(2.0 * first_min) - u_low) / kScanSteps;
    const auto share = [&](double u) { return unexplained_share(points, first_min - std::exp(u)); };
    int best = 0;
    double best_share = std::numeric_limits<double>::infinity();
    for (int i = 0; i <= kScanSteps; ++i) {
        const double here = share(u_low + i * width);
        if (here < best_share) {
            best = i;
            best_share = here;
        }
    }
    const double u_best = u_low + best * width;
    const auto minimum = boost::math::tools::brent_find_minima(
        share, u_best - width, u_best + width, std::numeric_limits<double>::digits);
    return first_min - std::exp(minimum.first);
}

} // namespace

double hold_up_from_three_homologues(double t1_min, double t2_min, double t3_min) {
    require(t1_min > 0.0, "a first retention time", t1_min, "a retention time above 0 min");
    require(t2_min > t1_min, "a second retention time", t2_min, "later than the first homologue");
    require(t3_min > t2_min, "a third retention time", t3_min, "later than the second homologue");
    const double denominator = t1_min + t3_min - 2.0 * t2_min;
    if (denominator <= 0.0) {
        refuse_spacing();
    }
    return plausible_hold_up((t1_min * t3_min - t2_min * t2_min) / denominator, t1_min);
}

double hold_up_from_homologues(const std::vector<LadderPoint> &points) {
    if (points.size() < 3) {
        throw InputError({}, fmt::format("{} ladder members", points.size()),
                         "at least three homologues to find the hold-up time from");
    }
    check_ladder({IndexScale::n_alkane, points}, LadderGaps::interpolate);
    if (points.size() == 3 &&
        points[1].carbon - points[0].carbon == points[2].carbon - points[1].carbon) {
        return hold_up_from_three_homologues(points[0].retention_time_min,
                                             points[1].retention_time_min,
                                             points[2].retention_time_min);
    }
    return plausible_hold_up(best_hold_up(points), points.front().retention_time_min);
}

} // namespace cospot::quantities

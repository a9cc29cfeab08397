#include "resolve/resolution_curve.h"

#include "quantities/peak_shape.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace cospot::resolve {

std::vector<std::size_t> elution_order(const std::vector<double> &k) {
    std::vector<std::size_t> order(k.size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return k[a] < k[b]; });
    return order;
}

CurvePoint point_at(const std::vector<RetentionLine> &lines, double fraction, double plate_number,
                    const RetentionWindow &window) {
    CurvePoint point;
    point.fraction = fraction;
    for (const RetentionLine &line : lines) {
        const double k = quantities::retention_factor_at(line.law, fraction);
        point.k.push_back(k);
        point.outside_window += k < window.from || k > window.to ? 1 : 0;
        point.window_excess +=
            std::max({0.0, std::log10(window.from / k), std::log10(k / window.to)});
    }
    const std::vector<std::size_t> order = elution_order(point.k);
    for (std::size_t i = 1; i < order.size(); ++i) {
        const double resolution = quantities::resolution_from_plate_number(
            point.k[order[i - 1]], point.k[order[i]], plate_number);
        if (!point.critical || resolution < point.resolution) {
            point.critical = {order[i - 1], order[i]};
            point.resolution = resolution;
        }
    }
    return point;
}

std::vector<CurvePoint> resolution_curve(const std::vector<RetentionLine> &lines,
                                         const FractionRange &range, double plate_number,
                                         const RetentionWindow &window) {
    constexpr double steps = 1000.0;
    constexpr double same = 1e-9;
    std::vector<double> fractions{range.low};
    for (double step = std::floor(range.low * steps) + 1.0; step / steps < range.high - same;
         ++step) {
        if (step / steps > range.low + same) {
            fractions.push_back(step / steps);
        }
    }
    if (range.high > range.low) {
        fractions.push_back(range.high);
    }
    std::vector<CurvePoint> curve;
    curve.reserve(fractions.size());
    for (const double fraction : fractions) {
        curve.push_back(point_at(lines, fraction, plate_number, window));
    }
    return curve;
}

std::vector<Crossing> crossings_of(const std::vector<RetentionLine> &lines,
                                   const FractionRange &range) {
    std::vector<Crossing> crossings;
    for (std::size_t a = 0; a < lines.size(); ++a) {
        for (std::size_t b = a + 1; b < lines.size(); ++b) {
            const double slopes = lines[a].law.slope - lines[b].law.slope;
            const double fraction = (lines[a].law.log_k_weak - lines[b].law.log_k_weak) / slopes;
            if (std::isfinite(fraction) && range.holds(fraction)) {
                // Below it the steeper line lies higher, so that the flatter one leaves first.
                crossings.push_back({slopes > 0.0 ? Pair{b, a} : Pair{a, b}, fraction});
            }
        }
    }
    std::stable_sort(crossings.begin(), crossings.end(),
                     [](const auto &a, const auto &b) { return a.fraction < b.fraction; });
    return crossings;
}

} // namespace cospot::resolve

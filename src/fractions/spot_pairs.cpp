#include "fractions/spot_pairs.h"

#include "quantities/plate.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace cospot::fractions {

namespace {

constexpr double kGapSlack = 1e-9; // 0.42 - 0.40 is a little more than 0.02

constexpr double kCostOfNoPartner = 0.5;

} // namespace

double default_tolerance(double front_mm, double reading_error_mm) {
    constexpr double middle = 0.5;
    constexpr double coverage = 3.0;
    const double reading =
        quantities::retardation_factor(middle * front_mm, front_mm, reading_error_mm)
            .standard_uncertainty;
    return coverage * std::numbers::sqrt2 * reading;
}

std::vector<std::pair<std::size_t, std::size_t>>
pair_spots(const std::vector<double> &a, const std::vector<double> &b, double tolerance) {
    // cost[i][j] is the least for the first i values of `a` and the first j of `b`.
    std::vector<std::vector<double>> cost(a.size() + 1, std::vector<double>(b.size() + 1));
    const auto paired = [&](std::size_t i, std::size_t j) {
        const double distance = std::abs(a[i - 1] - b[j - 1]) / (tolerance + kGapSlack);
        return cost[i - 1][j - 1] + distance * distance; // beyond the tolerance dearer than none
    };
    for (std::size_t i = 0; i <= a.size(); ++i) {
        for (std::size_t j = 0; j <= b.size(); ++j) {
            if (i == 0 || j == 0) {
                cost[i][j] = kCostOfNoPartner * static_cast<double>(i + j);
            } else {
                cost[i][j] = std::min({paired(i, j), cost[i - 1][j] + kCostOfNoPartner,
                                       cost[i][j - 1] + kCostOfNoPartner});
            }
        }
    }
    std::vector<std::pair<std::size_t, std::size_t>> pairs;
    for (std::size_t i = a.size(), j = b.size(); i > 0 && j > 0;) {
        if (paired(i, j) <= std::min(cost[i - 1][j], cost[i][j - 1]) + kCostOfNoPartner) {
            pairs.emplace_back(--i, --j);
        } else if (cost[i - 1][j] < cost[i][j - 1]) {
            --i;
        } else {
            --j;
        }
    }
    std::reverse(pairs.begin(), pairs.end());
    return pairs;
}

} // namespace cospot::fractions

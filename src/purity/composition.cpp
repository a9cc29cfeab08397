#include "purity/composition.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cospot::purity {

std::vector<double> area_per_cent(std::span<const double> areas,
                                  std::span<const double> response_factors) {
    if (areas.size() != response_factors.size()) {
        throw std::invalid_argument("one response factor an area");
    }
    std::vector<double> shares;
    double largest = 0.0;
    for (std::size_t i = 0; i < areas.size(); ++i) {
        if (!(areas[i] >= 0.0) || !(response_factors[i] > 0.0)) {
            throw std::invalid_argument("areas from 0 and response factors above 0");
        }
        shares.push_back(areas[i] / response_factors[i]);
        largest = std::max(largest, shares.back());
    }
    if (!(largest > 0.0 && std::isfinite(largest))) {
        throw std::invalid_argument(
            "areas of which one is above 0, and that no factor makes infinite");
    }
    double sum = 0.0; // in the largest share, which no sum overflows
    for (double &share : shares) {
        share /= largest;
        sum += share;
    }
    for (double &share : shares) {
        share *= 100.0 / sum;
    }
    return shares;
}

std::optional<double> relative_retention(double retention_time_min, double main_min,
                                         std::optional<double> hold_up_min) {
    const double hold_up = hold_up_min.value_or(0.0);
    if (!(main_min > hold_up)) {
        return std::nullopt;
    }
    return (retention_time_min - hold_up) / (main_min - hold_up);
}

} // namespace cospot::purity

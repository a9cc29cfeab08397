#include "model/transfer/local_scatter.h"

#include "shared/robust.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <utility>

namespace cospot::transfer {

namespace {

constexpr double kDeviationOfMean = 1.2533; ///< standard deviation from the mean absolute error

/// The `count` positions nearest to one, as a range of the ascending list.
std::pair<std::size_t, std::size_t> nearest(const std::vector<double> &positions, double position,
                                            std::size_t count) {
    std::size_t first = static_cast<std::size_t>(
        std::lower_bound(positions.begin(), positions.end(), position) - positions.begin());
    std::size_t last = first;
    while (last - first < std::min(count, positions.size())) {
        const bool left =
            first > 0 && (last == positions.size() ||
                          position - positions[first - 1] <= positions[last] - position);
        left ? --first : ++last;
    }
    return {first, last};
}

} // namespace

LocalScatter fit_scatter(const std::vector<double> &positions, const std::vector<double> &misses) {
    std::vector<std::size_t> order(positions.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return positions[a] < positions[b]; });
    LocalScatter scatter;
    for (const std::size_t i : order) {
        scatter.positions.push_back(positions[i]);
        scatter.misses.push_back(misses[i]);
    }
    scatter.typical_miss = std::max(deviation_about_zero(misses), 1e-12);
    return scatter;
}

double scatter_at(const LocalScatter &scatter, double position) {
    constexpr double share_nearby = 0.25;
    constexpr std::size_t fewest_nearby = 20;
    constexpr double weight_of_all = 10.0;
    const double reach = 6.0 * scatter.typical_miss;
    const auto capped_mean = [&](std::size_t first, std::size_t last) {
        double sum = 0.0;
        for (std::size_t i = first; i < last; ++i) {
            sum += std::min(std::abs(scatter.misses[i]), reach);
        }
        return kDeviationOfMean * sum / static_cast<double>(last - first);
    };
    const std::size_t count = scatter.positions.size();
    const auto nearby = std::max(
        fewest_nearby, static_cast<std::size_t>(share_nearby * static_cast<double>(count)));
    const auto [first, last] =
        nearest(scatter.positions,
                std::clamp(position, scatter.positions.front(), scatter.positions.back()), nearby);
    const auto n = static_cast<double>(last - first);
    return (n * capped_mean(first, last) + weight_of_all * capped_mean(0, count)) /
           (n + weight_of_all);
}

} // namespace cospot::transfer

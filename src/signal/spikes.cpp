#include "signal/spikes.h"

#include "shared/robust.h"

#include <algorithm>
#include <cmath>

namespace cospot::signal {

namespace {

constexpr double kSpikeDeviations = 10.0;
constexpr double kSpikeAgreement = 0.3;

/// Whether the points from `first` to `last` stand out to one side by more than `least`.
bool is_spike(std::span<const double> y, std::size_t first, std::size_t last, double least) {
    const double before = y[first - 1];
    const double after = y[last + 1];
    const auto [low, high] = std::minmax(y[first], y[last]);
    const double excess = std::max(low - std::max(before, after), std::min(before, after) - high);
    const double agreement = kSpikeAgreement * excess;
    return excess > least && std::abs(after - before) < agreement &&
           std::abs(before - y[first - 2]) < agreement && std::abs(after - y[last + 2]) < agreement;
}

} // namespace

std::vector<std::size_t> replace_spikes(std::span<double> y) {
    std::vector<std::size_t> replaced;
    if (y.size() < 6) {
        return replaced;
    }
    std::vector<double> differences(y.size() - 1);
    for (std::size_t i = 0; i + 1 < y.size(); ++i) {
        differences[i] = y[i + 1] - y[i];
    }
    const double least = kSpikeDeviations * deviation_about_zero(std::move(differences));
    for (std::size_t i = 2; i + 2 < y.size(); ++i) {
        for (const std::size_t length : {1U, 2U}) {
            const std::size_t last = i + length - 1;
            if (last + 2 < y.size() && is_spike(y, i, last, least)) {
                const double slope = (y[last + 1] - y[i - 1]) / static_cast<double>(length + 1);
                for (std::size_t j = i; j <= last; ++j) {
                    y[j] = y[j - 1] + slope;
                    replaced.push_back(j);
                }
                break;
            }
        }
    }
    return replaced;
}

} // namespace cospot::signal

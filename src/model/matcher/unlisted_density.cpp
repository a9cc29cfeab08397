#include "model/matcher/unlisted_density.h"

#include "model/matcher/retention_scale.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <tuple>
#include <utility>

namespace cospot::matcher {

namespace {

constexpr double kEvenShare = 0.2;
constexpr double kNarrowestInSpreads = 3.0;

/// How far beyond the library's values an unknown may lie, on the model scale.
double margin(Quantity quantity) {
    switch (quantity) {
    case Quantity::Rf:
        return 0.0; // the plate ends
    case Quantity::k:
    case Quantity::RRT:
    case Quantity::r:
        return 0.5;
    case Quantity::RI:
        return 200.0;
    case Quantity::tR:
        return 5.0;
    }
    return 0.0;
}

/// Where values are to be expected of a system that nothing is known of, on the model scale (common
/// practice, no source).
std::pair<double, double> usual_range(Quantity quantity) {
    switch (quantity) {
    case Quantity::k:
    case Quantity::RRT:
    case Quantity::r:
        return {-1.0, 1.5};
    case Quantity::RI:
        return {400.0, 3000.0};
    case Quantity::tR:
        return {0.0, 30.0};
    case Quantity::Rf:
        break;
    }
    return {0.0, std::numbers::pi / 2};
}

/// The value below which a share `q` of the sorted values lies.
double quantile(const std::vector<double> &sorted, double q) {
    const auto last = static_cast<double>(sorted.size() - 1);
    return sorted[static_cast<std::size_t>(std::lround(q * last))];
}

/// Standard deviation of a normal distribution with the same quartiles: one mistyped value of the
/// library cannot blow it up.
double robust_deviation(const std::vector<double> &sorted) {
    return sorted.empty() ? 0.0 : (quantile(sorted, 0.75) - quantile(sorted, 0.25)) / 1.349;
}

/// Range of the values without those that lie absurdly far out (beyond 10 quartile ranges).
std::pair<double, double> robust_range(const std::vector<double> &sorted) {
    const double reach = 10 * std::max(1e-9, quantile(sorted, 0.75) - quantile(sorted, 0.25));
    const double middle = quantile(sorted, 0.5);
    const bool few = sorted.size() < 5;
    const auto low = std::lower_bound(sorted.begin(), sorted.end(), middle - reach);
    const auto high = std::upper_bound(sorted.begin(), sorted.end(), middle + reach);
    return few ? std::pair(sorted.front(), sorted.back()) : std::pair(*low, *(high - 1));
}

/// Gathers neighbouring centres, each bin at the mean of its own.
void condense(UnlistedDensity &unlisted) {
    constexpr std::size_t many = 500;
    constexpr double bins_a_bandwidth = 20.0;
    unlisted.weights.assign(unlisted.centres.size(), 1.0);
    if (unlisted.centres.size() <= many) {
        return;
    }
    const double width = unlisted.bandwidth / bins_a_bandwidth;
    const std::vector<double> all = std::move(unlisted.centres);
    unlisted.centres.clear();
    unlisted.weights.clear();
    double end = 0.0;
    for (const double centre : all) {
        if (unlisted.centres.empty() || centre >= end) {
            end = centre + width;
            unlisted.centres.push_back(0.0);
            unlisted.weights.push_back(0.0);
        }
        double &mean = unlisted.centres.back();
        double &weight = unlisted.weights.back();
        weight += 1.0;
        mean += (centre - mean) / weight;
    }
}

double total_weight(const UnlistedDensity &unlisted) {
    return std::max(1.0, std::accumulate(unlisted.weights.begin(), unlisted.weights.end(), 0.0));
}

} // namespace

UnlistedDensity fit_unlisted(Quantity quantity, const std::vector<CandidateDensity> &candidates,
                             double replicate_spread) {
    UnlistedDensity unlisted;
    double at_start = 0.5;
    double at_front = 0.5;
    for (const CandidateDensity &candidate : candidates) {
        at_start += candidate.always == Censoring::at_start ? 1.0 : 0.0;
        at_front += candidate.always == Censoring::at_front ? 1.0 : 0.0;
        if (candidate.always == Censoring::none) {
            unlisted.centres.push_back(candidate.location);
        }
    }
    std::sort(unlisted.centres.begin(), unlisted.centres.end());
    if (quantity == Quantity::Rf) {
        const double total = static_cast<double>(candidates.size()) + 1.5;
        unlisted.at_start = at_start / total;
        unlisted.at_front = at_front / total;
        unlisted.low = 0.0;
        unlisted.high = std::numbers::pi / 2;
    } else if (!unlisted.centres.empty()) {
        const auto [low, high] = robust_range(unlisted.centres);
        unlisted.low = low - margin(quantity);
        unlisted.high = high + margin(quantity);
    } else {
        std::tie(unlisted.low, unlisted.high) = usual_range(quantity);
    }
    // The normal-reference rule (silverman1986, eq. 3.28, from memory).
    const auto n = static_cast<double>(std::max<std::size_t>(1, unlisted.centres.size()));
    const double reference = 1.06 * robust_deviation(unlisted.centres) * std::pow(n, -0.2);
    unlisted.bandwidth = std::max(reference, kNarrowestInSpreads * replicate_spread);
    condense(unlisted);
    return unlisted;
}

double log_density(const UnlistedDensity &unlisted, Quantity quantity, double value) {
    switch (censoring(quantity, value)) {
    case Censoring::at_start:
        return std::log(unlisted.at_start);
    case Censoring::at_front:
        return std::log(unlisted.at_front);
    case Censoring::none:
        break;
    }
    const double x = to_model_scale(quantity, value);
    double kernels = 0.0;
    for (std::size_t i = 0; i < unlisted.centres.size(); ++i) {
        const double z = (x - unlisted.centres[i]) / unlisted.bandwidth;
        kernels += unlisted.weights[i] * std::exp(-0.5 * z * z);
    }
    kernels /= total_weight(unlisted) * unlisted.bandwidth * std::sqrt(2 * std::numbers::pi);
    const double range = unlisted.high - unlisted.low;
    // Outside the range the even part falls off as 1/distance^2, so that nothing is impossible.
    const double outside = std::max({0.0, unlisted.low - x, x - unlisted.high});
    const double even = 1.0 / (range * (1.0 + outside * outside / (range * range)));
    const double between_ends = 1.0 - unlisted.at_start - unlisted.at_front;
    const double even_share = unlisted.centres.empty() ? 1.0 : kEvenShare;
    return std::log(between_ends * ((1 - even_share) * kernels + even_share * even));
}

} // namespace cospot::matcher

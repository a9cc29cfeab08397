#include "model/matcher/unlisted_density.h"

#include "model/matcher/reading_error.h"
#include "model/matcher/retention_scale.h"
#include "shared/student_t.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <numeric>
#include <tuple>
#include <utility>

namespace cospot::matcher {

namespace {

/// An unlisted compound need not lie where listed ones do (assumed).
constexpr double kEvenShare = 0.2;
/// Narrower kernels would peak at every listed compound, as if unlisted ones sat upon them
/// (assumed).
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

namespace {

/// Density of the kernels as a reading with that error shows them.
double kernels_at(const UnlistedDensity &unlisted, double x, double error) {
    constexpr double nearly_normal = 1e6; // degrees of freedom
    const auto [width, freedom] =
        as_read(unlisted.bandwidth, std::numeric_limits<double>::infinity(), error);
    const bool is_normal = freedom > nearly_normal;
    const double constant =
        is_normal ? 1.0 / std::sqrt(2 * std::numbers::pi) : std::exp(student_t_constant(freedom));
    double kernels = 0.0;
    for (std::size_t i = 0; i < unlisted.centres.size(); ++i) {
        const double z = (x - unlisted.centres[i]) / width;
        kernels += unlisted.weights[i] *
                   std::exp(is_normal ? -0.5 * z * z
                                      : -0.5 * (freedom + 1.0) * std::log1p(z * z / freedom));
    }
    return constant * kernels / (total_weight(unlisted) * width);
}

/// The even part as a reading with that error shows it. Outside its range it falls off as
/// 1/distance^2, so that nothing is impossible. That floor has no end and would outgrow all others
/// where a reading is vague, which says nothing of where its compound lies: it goes down with it.
double even_at(const UnlistedDensity &unlisted, double x, double error) {
    const double range = unlisted.high - unlisted.low;
    const double outside = std::max({0.0, unlisted.low - x, x - unlisted.high}) / range;
    if (error <= 0.0) {
        return 1.0 / (range * (1.0 + outside * outside));
    }
    const double floor =
        1.0 / (range * (1.0 + outside * outside) * (1.0 + error * error / (range * range)));
    constexpr double much_wider = 1e5; // than the range: differences of probabilities would round
    if (error > much_wider * range) {
        return density_of_misreading(x - 0.5 * (unlisted.low + unlisted.high), error);
    }
    const double read =
        (misreads_by_less(unlisted.high - x, error) - misreads_by_less(unlisted.low - x, error)) /
        range;
    return std::max(read, floor);
}

double even_share(const UnlistedDensity &unlisted) {
    return unlisted.centres.empty() ? 1.0 : kEvenShare;
}

/// Probability that a spot that is at neither end is read at one, which takes an error.
double moving_read_at(Censoring end, const UnlistedDensity &unlisted, double error) {
    const double edge = edge_of(end);
    const auto of_place = [&](double place) {
        return misreads_by_less(-std::abs(place - edge) - unlisted.bandwidth, error);
    };
    double kernels = 0.0;
    for (std::size_t i = 0; i < unlisted.centres.size(); ++i) {
        kernels += unlisted.weights[i] * of_place(unlisted.centres[i]);
    }
    const double share = even_share(unlisted);
    return (1.0 - share) * kernels / total_weight(unlisted) +
           share * of_place(0.5 * (unlisted.low + unlisted.high));
}

double probability_at(Censoring end, const UnlistedDensity &unlisted, double error) {
    const double moving = 1.0 - unlisted.at_start - unlisted.at_front;
    return unlisted.at_start * read_at(end, place_of(Censoring::at_start), error) +
           unlisted.at_front * read_at(end, place_of(Censoring::at_front), error) +
           (error > 0.0 ? moving * moving_read_at(end, unlisted, error) : 0.0);
}

} // namespace

double log_density(const UnlistedDensity &unlisted, Quantity quantity, double value,
                   double uncertainty) {
    const double error = error_of(quantity, value, uncertainty);
    const Censoring end = censoring(quantity, value);
    if (end != Censoring::none) {
        return std::log(probability_at(end, unlisted, error));
    }
    const double x = to_model_scale(quantity, value);
    const double share = even_share(unlisted);
    double density =
        (1.0 - unlisted.at_start - unlisted.at_front) *
        ((1 - share) * kernels_at(unlisted, x, error) + share * even_at(unlisted, x, error));
    if (quantity == Quantity::Rf) {
        density +=
            unlisted.at_start * density_of_misreading(x - place_of(Censoring::at_start), error) +
            unlisted.at_front * density_of_misreading(x - place_of(Censoring::at_front), error);
    }
    return std::log(density);
}

} // namespace cospot::matcher

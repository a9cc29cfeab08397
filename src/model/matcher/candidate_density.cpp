#include "model/matcher/candidate_density.h"

#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace cospot::matcher {

namespace {

constexpr double kSmallestProbability = 1e-12;

double scale_with(const CandidateDensity &candidate, Quantity quantity, double uncertainty,
                  const RunShift &shift) {
    const double own = uncertainty * scale_slope(quantity, candidate.mean);
    return std::sqrt(candidate.scale * candidate.scale + own * own + shift.variance);
}

double log_density_of(const CandidateDensity &candidate, double standardised, double scale) {
    return candidate.log_constant - std::log(scale) -
           (candidate.freedom + 1) / 2 *
               std::log1p(standardised * standardised / candidate.freedom);
}

double density_at(const CandidateDensity &candidate, double x) {
    return std::exp(
        log_density_of(candidate, (x - candidate.location) / candidate.scale, candidate.scale));
}

/// The overlap as a sum over a grid.
double overlap_by_sum(const CandidateDensity &a, const CandidateDensity &b) {
    constexpr int steps = 400;
    constexpr double reach = 12.0;
    const double low = std::min(a.location - reach * a.scale, b.location - reach * b.scale);
    const double high = std::max(a.location + reach * a.scale, b.location + reach * b.scale);
    const double width = (high - low) / steps;
    double shared = 0.0;
    double total = 0.0;
    for (int i = 0; i < steps; ++i) {
        const double x = low + (i + 0.5) * width;
        const double in_a = density_at(a, x);
        const double in_b = density_at(b, x);
        shared += std::min(in_a, in_b);
        total += 0.5 * (in_a + in_b);
    }
    return total > 0.0 ? shared / total : 0.0;
}

/// The overlap of densities with the same degrees of freedom, from the points where they cross:
/// there (1 + za^2 / freedom) sa^p = (1 + zb^2 / freedom) sb^p with p = 2 / (freedom + 1), or
/// ka x^2 - kb (x - distance)^2 + rest = 0.
double overlap_of_alike(const CandidateDensity &a, const CandidateDensity &b) {
    const boost::math::students_t distribution(a.freedom);
    const double distance = std::abs(a.location - b.location);
    const double sa = std::min(a.scale, b.scale); // the narrower one, at 0; the other at `distance`
    const double sb = std::max(a.scale, b.scale);
    const double power = 2.0 / (a.freedom + 1.0);
    const double ka = std::pow(sa, power) / (a.freedom * sa * sa);
    const double kb = std::pow(sb, power) / (a.freedom * sb * sb);
    const double rest = std::pow(sa, power) - std::pow(sb, power);
    const double square = ka - kb;
    if (square <= 1e-9 * ka) { // equally wide: they cross once, in the middle
        return 2.0 * boost::math::cdf(distribution, -0.5 * distance / sa);
    }
    const double half = kb * distance;
    const double constant = rest - kb * distance * distance;
    const double root = std::sqrt(std::max(0.0, half * half - square * constant));
    const double left = -(half + root) / square;
    const double right = -constant / (half + root);
    // Between the crossings the narrower density is the higher one.
    const auto share = [&](double location, double scale) {
        return boost::math::cdf(distribution, (right - location) / scale) -
               boost::math::cdf(distribution, (left - location) / scale);
    };
    return 1.0 - share(0.0, sa) + share(distance, sb);
}

/// Probability that a spot at a mean outside the ends is seen at the end all the same.
double probability_at(Censoring end, const CandidateDensity &candidate, double location,
                      double scale) {
    if (candidate.always == end) {
        // Seen there n times of n: the rule of succession with half a count each way (Jeffreys).
        const auto n = static_cast<double>(candidate.runs);
        return (n + 0.5) / (n + 1.0);
    }
    const double edge = to_model_scale(
        Quantity::Rf, end == Censoring::at_start ? kCensoredMargin : 1.0 - kCensoredMargin);
    const double standardised = (edge - location) / scale;
    const boost::math::students_t distribution(candidate.freedom);
    return boost::math::cdf(distribution,
                            end == Censoring::at_start ? standardised : -standardised);
}

} // namespace

double log_density(const CandidateDensity &candidate, Quantity quantity, double value,
                   double uncertainty, const RunShift &shift) {
    const double scale = scale_with(candidate, quantity, uncertainty, shift);
    const double location = candidate.location + shift.mean;
    const Censoring end = censoring(quantity, value);
    if (end != Censoring::none) {
        return std::log(
            std::max(probability_at(end, candidate, location, scale), kSmallestProbability));
    }
    const double standardised = (to_model_scale(quantity, value) - location) / scale;
    double density = log_density_of(candidate, standardised, scale);
    if (candidate.always != Censoring::none) {
        // The share that does not stay at the end lies on the inner side of it, twice as dense.
        density += std::log(2 * (1 - probability_at(candidate.always, candidate, location, scale)));
    }
    return density;
}

double probability_below(const CandidateDensity &candidate, Quantity quantity, double value,
                         double uncertainty, const RunShift &shift) {
    const double scale = scale_with(candidate, quantity, uncertainty, shift);
    return boost::math::cdf(boost::math::students_t(candidate.freedom),
                            (to_model_scale(quantity, value) - candidate.location - shift.mean) /
                                scale);
}

double spread_in_units(const CandidateDensity &candidate, Quantity quantity, double uncertainty,
                       const RunShift &shift) {
    return scale_with(candidate, quantity, uncertainty, shift) /
           scale_slope(quantity, candidate.mean);
}

double overlap(const CandidateDensity &a, const CandidateDensity &b) {
    if (a.always != Censoring::none || b.always != Censoring::none) {
        return a.always == b.always ? 1.0 : 0.0;
    }
    return a.freedom == b.freedom ? overlap_of_alike(a, b) : overlap_by_sum(a, b);
}

double most_overlap(const CandidateDensity &a, const CandidateDensity &b) {
    if (a.always != Censoring::none || b.always != Censoring::none) {
        return 1.0;
    }
    const double distance = std::abs(a.location - b.location) / (a.scale + b.scale);
    return 1.0 - 2.0 * std::numbers::inv_pi * std::atan(distance);
}

} // namespace cospot::matcher

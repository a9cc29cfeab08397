#include "model/matcher/candidate_density.h"

#include "model/matcher/reading_error.h"
#include "shared/student_t.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace cospot::matcher {

namespace {

constexpr double kSmallestProbability = 1e-12;

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
    const double distance = std::abs(a.location - b.location);
    const double sa = std::min(a.scale, b.scale); // the narrower one, at 0; the other at `distance`
    const double sb = std::max(a.scale, b.scale);
    const double power = 2.0 / (a.freedom + 1.0);
    const double ka = std::pow(sa, power) / (a.freedom * sa * sa);
    const double kb = std::pow(sb, power) / (a.freedom * sb * sb);
    const double rest = std::pow(sa, power) - std::pow(sb, power);
    const double square = ka - kb;
    if (square <= 1e-9 * ka) { // equally wide: they cross once, in the middle
        return 2.0 * student_t_below(-0.5 * distance / sa, a.freedom);
    }
    const double half = kb * distance;
    const double constant = rest - kb * distance * distance;
    const double root = std::sqrt(std::max(0.0, half * half - square * constant));
    const double left = -(half + root) / square;
    const double right = -constant / (half + root);
    // Between the crossings the narrower density is the higher one.
    const auto share = [&](double location, double scale) {
        return student_t_below((right - location) / scale, a.freedom) -
               student_t_below((left - location) / scale, a.freedom);
    };
    return 1.0 - share(0.0, sa) + share(distance, sb);
}

/// Probability that a spot that was always seen at an end stays there again. Seen there n times of
/// n: the rule of succession with half a count each way (Jeffreys).
double stays(const CandidateDensity &candidate) {
    const auto n = static_cast<double>(candidate.runs);
    return (n + 0.5) / (n + 1.0);
}

} // namespace

ReadCandidate::ReadCandidate(const CandidateDensity &candidate, Quantity quantity, double value,
                             double uncertainty)
    // A probability of being read at an end needs no common scale: the error where the spot is.
    : held_(&candidate),
      error_(error_of(quantity,
                      censoring(quantity, value) == Censoring::none ? value : candidate.mean,
                      uncertainty)),
      end_(censoring(quantity, value)), x_(to_model_scale(quantity, value)), read_(candidate) {
    if (error_ > 0.0) {
        const auto [scale, freedom] = as_read(candidate.scale, candidate.freedom, error_);
        read_.scale = scale;
        read_.freedom = freedom;
        read_.log_constant = student_t_constant(freedom);
    }
}

double ReadCandidate::standardised(const RunShift &shift, double x) const {
    return (x - read_.location - shift.mean) / scale(shift);
}

double ReadCandidate::scale(const RunShift &shift) const {
    return std::sqrt(read_.scale * read_.scale + shift.variance);
}

double ReadCandidate::probability_below(const RunShift &shift) const {
    return student_t_below(standardised(shift, x_), read_.freedom);
}

/// That a spot is read at the end: one that moves, or one that stays at an end, now and then not.
double ReadCandidate::probability_at_end(const RunShift &shift) const {
    const double z = standardised(shift, edge_of(end_));
    const double moving = student_t_below(end_ == Censoring::at_start ? z : -z, read_.freedom);
    if (held_->always == Censoring::none) {
        return moving;
    }
    const double stay = stays(*held_);
    const double off = std::hypot(held_->scale, std::sqrt(shift.variance));
    return stay * read_at(end_, place_of(held_->always), error_) +
           (1.0 - stay) * (held_->always == end_ ? misreads_by_less(-off, error_) : moving);
}

double ReadCandidate::log_density(const RunShift &shift) const {
    if (end_ != Censoring::none) {
        return std::log(std::max(probability_at_end(shift), kSmallestProbability));
    }
    const double both = scale(shift);
    const double moving = log_density_of(read_, standardised(shift, x_), both);
    if (held_->always == Censoring::none) {
        return moving;
    }
    // The share that does not stay at the end lies on the inner side of it, twice as dense but for
    // what the reading's error spreads to the other side.
    const double stay = stays(*held_);
    const double inner = 1.0 + std::hypot(held_->scale, std::sqrt(shift.variance)) / both;
    return std::log((1.0 - stay) * inner * std::exp(moving) +
                    stay * density_of_misreading(x_ - place_of(held_->always), error_));
}

double log_density(const CandidateDensity &candidate, Quantity quantity, double value,
                   double uncertainty, const RunShift &shift) {
    return ReadCandidate(candidate, quantity, value, uncertainty).log_density(shift);
}

double probability_below(const CandidateDensity &candidate, Quantity quantity, double value,
                         double uncertainty, const RunShift &shift) {
    return ReadCandidate(candidate, quantity, value, uncertainty).probability_below(shift);
}

double spread_in_units(const CandidateDensity &candidate, Quantity quantity, double uncertainty,
                       const RunShift &shift) {
    const double slope = scale_slope(quantity, candidate.mean);
    const double own = uncertainty * slope;
    return std::sqrt(candidate.scale * candidate.scale + own * own + shift.variance) / slope;
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

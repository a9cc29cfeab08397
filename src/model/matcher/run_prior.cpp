#include "model/matcher/run_prior.h"

#include "model/matcher/retention_scale.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace cospot::matcher {

namespace {

/// A run's usual offset where the library does not tell it apart from the spread of compounds: a
/// share of that spread. Plates move as a whole above all (common practice, no source).
double usual_share_of_spread(Quantity quantity) {
    return quantity == Quantity::Rf ? 1.0 : 0.5;
}

/// A Student t with 4 degrees of freedom as three normal distributions of equal weight: its
/// variance is 4 over chi-squared with 4 degrees of freedom, here at 1/6, 1/2 and 5/6.
constexpr std::array<double, 3> kVariancesOfT{2.73, 1.19, 0.617};

/// Of times that are old or of unknown age: the probability of an accident, and by what share of
/// itself a time has drifted where none befell the run.
constexpr double kAccidentAtLast = 0.5;
constexpr double kDriftAtLast = 0.03;

struct Widths {
    double accident;
    double usual_slope;
    double accident_offset;
    double accident_slope;
};

/// MODEL.md, section 2 says where each is from.
Widths widths_of(Quantity quantity) {
    switch (quantity) {
    case Quantity::Rf:
        return {0.05, 0.02, 0.15, 0.15};
    case Quantity::RI:
        return {0.5, 0.0005, 15.0, 0.006};
    case Quantity::tR:
        return {0.1, 0.002, 0.1, 0.06};
    case Quantity::RRT:
    case Quantity::r: // the reference itself stays at 1
        return {0.05, 0.002, 0.01, 0.03};
    case Quantity::k:
        break;
    }
    return {0.05, 0.005, 0.05, 0.03};
}

/// A value off the ends, where R_M is infinite, on the model scale.
double inside(Quantity quantity, double value) {
    return to_model_scale(quantity, quantity == Quantity::Rf
                                        ? std::clamp(value, kCensoredMargin, 1.0 - kCensoredMargin)
                                        : value);
}

/// How old the library's values are, from 0 on the day of the youngest to 1 at last; half of that
/// where none is dated, which may be of today. A time is moved by whatever is done to column or
/// flow, which happens some time between the values and the run; indices, retention factors and
/// relative retention are made to survive that, and of R_F every plate is new: they do not age.
double age_of(const SystemModel &system) {
    constexpr double half_of_it_years = 0.25;
    constexpr double not_dated = 0.5;
    if (system.quantity != Quantity::tR) {
        return 0.0;
    }
    return system.newest_year ? 1.0 - std::exp2(-system.years_since / half_of_it_years) : not_dated;
}

double width_at(double offset, double slope, double distance) {
    return std::hypot(offset, slope * distance);
}

} // namespace

double to_line_scale(Quantity quantity, double scaled) {
    // R_M = log10((1 - R_F) / R_F), and R_F = sin^2 of the model scale.
    return quantity == Quantity::Rf ? -2.0 * std::log10(std::tan(scaled)) : scaled;
}

double from_line_scale(Quantity quantity, double on_line) {
    return quantity == Quantity::Rf ? std::atan(std::pow(10.0, -0.5 * on_line)) : on_line;
}

double model_per_line(Quantity quantity, double on_line) {
    if (quantity != Quantity::Rf) {
        return 1.0;
    }
    return -0.25 * std::numbers::ln10 * std::sin(2.0 * from_line_scale(quantity, on_line));
}

RunPrior run_prior(const SystemModel &system) {
    const Widths widths = widths_of(system.quantity);
    RunPrior prior;
    const double age = age_of(system);
    prior.accident = widths.accident + age * (kAccidentAtLast - widths.accident);
    prior.drift = age * kDriftAtLast;
    // Of R_F the spread is that in the middle of the plate.
    const double steepness =
        system.quantity == Quantity::Rf ? std::abs(model_per_line(system.quantity, 0.0)) : 1.0;
    const double usual =
        std::max(std::sqrt(system.shift.variance),
                 usual_share_of_spread(system.quantity) * std::sqrt(system.spread.variance));
    prior.usual_offset = usual / steepness;
    prior.usual_slope = widths.usual_slope;
    prior.accident_offset = std::max(widths.accident_offset, 3.0 * prior.usual_offset);
    prior.accident_slope = widths.accident_slope;
    if (system.quantity == Quantity::RI) {
        prior.centre = 0.5 * (system.unlisted.low + system.unlisted.high);
    }
    return prior;
}

ShiftMixture prior_shifts(const RunPrior &prior, const SystemModel &system, double value) {
    const double place = to_line_scale(system.quantity, inside(system.quantity, value));
    const double steepness = model_per_line(system.quantity, place);
    const double distance = place - prior.centre;
    const auto variance = [&](double offset, double slope) {
        const double width = steepness * width_at(offset, slope, distance);
        return width * width;
    };
    // Where the library does not tell how its runs vary, its spread of compounds has it; but not
    // how they drift with the years.
    const double usual = system.shift.variance + variance(0.0, prior.drift);
    ShiftMixture mixture{{1.0 - prior.accident, {0.0, usual}}};
    for (const double of_t : kVariancesOfT) {
        mixture.push_back({prior.accident / std::size(kVariancesOfT),
                           {0.0, of_t * variance(prior.accident_offset, prior.accident_slope)}});
    }
    return mixture;
}

double farthest_shift(const RunPrior &prior, Quantity quantity, double value) {
    constexpr double farthest = 5.0; // kReachOfShift deviations of the widest component
    const double place = to_line_scale(quantity, inside(quantity, value));
    const double steepness =
        quantity == Quantity::Rf ? std::abs(model_per_line(quantity, 0.0)) : 1.0;
    return farthest * steepness *
           width_at(prior.accident_offset, prior.accident_slope, place - prior.centre);
}

double accident_below(double x) {
    const double s = x / std::sqrt(4.0 + x * x);
    return 0.5 + 0.75 * s * (1.0 - s * s / 3.0);
}

} // namespace cospot::matcher

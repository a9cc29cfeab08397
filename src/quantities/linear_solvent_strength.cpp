#include "quantities/linear_solvent_strength.h"

#include "quantities/domain.h"

#include <cmath>
#include <numbers>

namespace cospot::quantities {

namespace {

void require_fraction(std::string_view what, double fraction) {
    require(fraction >= 0.0 && fraction <= 1.0, what, fraction, "a volume fraction from 0 to 1");
}

/// Time in which a share of the column (0 to 1) is passed, where k is k_begin at first and then
/// grows by the factor e^(-steepness t). Infinite if it is never passed.
double passing_time(double share, double k_begin, double hold_up_min, double steepness_per_min) {
    const double at_constant = share * hold_up_min * k_begin;
    const double growth = steepness_per_min * at_constant;
    if (std::abs(growth) < 1e-12) {
        return at_constant;
    }
    return growth <= -1.0 ? INFINITY : std::log1p(growth) / steepness_per_min;
}

/// The share of the column that is passed in a time; the inverse of `passing_time`.
double passed_share(double time_min, double k_begin, double hold_up_min, double steepness_per_min) {
    const double exponent = steepness_per_min * time_min;
    const double effective_min =
        std::abs(exponent) < 1e-12 ? time_min : std::expm1(exponent) / steepness_per_min;
    return effective_min / (hold_up_min * k_begin);
}

} // namespace

double retention_factor_at(const SolventStrengthLaw &law, double fraction) {
    require_fraction("a fraction", fraction);
    const double k = std::pow(10.0, law.log_k_weak - law.slope * fraction);
    require(
        k > 0.0, "a retention factor", k,
        fmt::format("a number: a fraction of {} lies too far from those measured for so steep a "
                    "line",
                    exact_text(fraction)));
    return k;
}

double fraction_for(const SolventStrengthLaw &law, double k) {
    require(k > 0.0, "a retention factor", k, "a retention factor above 0");
    require(law.slope != 0.0, "a slope S", law.slope, "k that depends on the fraction");
    return (law.log_k_weak - std::log10(k)) / law.slope;
}

GradientRetention gradient_retention(const SolventStrengthLaw &law,
                                     const LinearGradient &gradient) {
    require_fraction("a first fraction", gradient.from_fraction);
    require_fraction("a last fraction", gradient.to_fraction);
    require(gradient.duration_min > 0.0, "a gradient time", gradient.duration_min,
            "a gradient time above 0 min");
    require(gradient.dwell_min >= 0.0, "a dwell time", gradient.dwell_min,
            "a dwell time of 0 min or more");
    require(gradient.hold_up_min > 0.0, "a hold-up time", gradient.hold_up_min,
            "a hold-up time above 0 min");

    // Times below are those of the composition that has reached the compound, without t_0.
    const double t0 = gradient.hold_up_min;
    const double k_first = retention_factor_at(law, gradient.from_fraction);
    const double after_dwell = 1.0 - gradient.dwell_min / (t0 * k_first);
    if (after_dwell <= 0.0) {
        return {t0 * (1.0 + k_first), gradient.from_fraction, GradientStage::before};
    }
    const double change = gradient.to_fraction - gradient.from_fraction;
    const double steepness = std::numbers::ln10 * law.slope * change / gradient.duration_min;
    const double in_gradient = passing_time(after_dwell, k_first, t0, steepness);
    if (in_gradient <= gradient.duration_min) {
        return {t0 + gradient.dwell_min + in_gradient,
                gradient.from_fraction + change * in_gradient / gradient.duration_min,
                GradientStage::during};
    }
    const double k_last = retention_factor_at(law, gradient.to_fraction);
    const double left = after_dwell - passed_share(gradient.duration_min, k_first, t0, steepness);
    return {t0 + gradient.dwell_min + gradient.duration_min + left * t0 * k_last,
            gradient.to_fraction, GradientStage::behind};
}

} // namespace cospot::quantities

#pragma once

namespace cospot::quantities {

/// How a compound's retention follows the composition on one column: log10 k = log10 k_w - S phi,
/// phi the volume fraction of the modifier, 0 to 1. A law for reversed phases and a limited range
/// of phi: L. R. Snyder, J. W. Dolan, High-Performance Gradient Elution (2007), chapter 1.
struct SolventStrengthLaw {
    double log_k_weak =
        0.0;            ///< log10 k_w: of k without modifier, a number of the law, not measured
    double slope = 0.0; ///< S; above 0 where the modifier makes the compound leave earlier
};

/// k at a fraction. Throws InputError unless 0 <= fraction <= 1, and for a k that no number holds.
[[nodiscard]] double retention_factor_at(const SolventStrengthLaw &law, double fraction);

/// The fraction at which k has the value wanted; it may lie outside 0 to 1, which is for the caller
/// to judge. Throws InputError unless k is above 0 and S is not 0.
[[nodiscard]] double fraction_for(const SolventStrengthLaw &law, double k);

/// A gradient that is a straight line in phi, and holds its last composition.
struct LinearGradient {
    double from_fraction = 0.0;
    double to_fraction = 1.0;
    double duration_min = 0.0; ///< t_G
    double dwell_min = 0.0;    ///< t_D: until what the pump mixes arrives at the column
    double hold_up_min = 0.0;  ///< t_0
};

/// Where in the programme a compound leaves.
enum class GradientStage { before, during, behind };

struct GradientRetention {
    double time_min = 0.0;
    double fraction = 0.0; ///< of the mobile phase around the compound as it leaves
    GradientStage stage = GradientStage::during;
};

/// Retention time in a linear gradient. While the compound is in the gradient, t_R = (t_0/b) log10
/// (ln 10 k_0 b r + 1) + t_0 + t_D with b = t_0 S (phi_to - phi_from) / t_G, k_0 that at the first
/// composition and r = 1 - t_D / (t_0 k_0) what is left of the column after the dwell time
/// (snyder2007, from memory, without r, which is 1 for what is well retained). A compound that
/// leaves before the gradient reaches it, or behind its end, moves at constant composition there:
/// the same integral, no further law. Throws InputError for a fraction outside 0 to 1, a duration
/// or hold-up time that is not above 0, and a negative dwell time.
[[nodiscard]] GradientRetention gradient_retention(const SolventStrengthLaw &law,
                                                   const LinearGradient &gradient);

} // namespace cospot::quantities

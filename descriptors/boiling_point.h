#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace cospot::descriptors {

/// A normal boiling point (at 101.325 kPa) estimated from structure alone: a proxy for volatility,
/// never a measured value.
struct BoilingPoint {
    std::optional<double> kelvin; ///< K; empty where the method cannot tell
    /// K; only the model has one. Wider for structures unlike those that it was fitted to.
    std::optional<double> standard_error_kelvin;
    std::string missing; ///< why there is no value, in words; empty where there is one
};

struct BoilingPointEstimates {
    /// Sum of 41 groups: K. G. Joback, R. C. Reid, Chem. Eng. Commun. 1987, 57, 233. Far too high
    /// for large molecules (by 490 K for pentacontane).
    BoilingPoint joback;
    /// Groups with a correction: S. E. Stein, R. L. Brown, J. Chem. Inf. Comput. Sci. 1994, 34,
    /// 581; 53 of about 85 groups are known here.
    BoilingPoint stein_brown;
    BoilingPoint model; ///< our own, fitted to measured values (boiling_point_model.h)
};

/// Estimates the boiling point of one compound. A value is missing, with the reason, for several
/// fragments (salts, mixtures) and where an atom is in no group of the method. May be called from
/// several threads. Throws InputError as `read_smiles` does.
[[nodiscard]] BoilingPointEstimates boiling_points(std::string_view smiles);

} // namespace cospot::descriptors

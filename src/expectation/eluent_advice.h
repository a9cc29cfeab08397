#pragma once

#include "expectation/expected_retention.h"
#include "library/database.h"
#include "shared/eluent.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// R_F at which a target leaves a flash column well: W. C. Still, M. Kahn, A. Mitra, J. Org. Chem.
/// 1978, 43, 2923, aim at 0.35; the lower end is common practice, no source.
inline constexpr double kLowestWantedRf = 0.20;
inline constexpr double kHighestWantedRf = 0.35;
/// Where an eluent is sought that the library has no values of, it is for this R_F.
inline constexpr double kWantedRf = 0.30;

enum class EluentChange { keep, stronger, weaker };

[[nodiscard]] std::string_view to_text(EluentChange change); ///< "keep", "stronger", "weaker"

/// What has to become of an eluent in which the target runs at `rf`.
[[nodiscard]] EluentChange eluent_change(double rf);

/// The solvent that elutes most strongly from silica, by eps0 (quantities/solvent_strength.h).
/// Empty for a single solvent, and where the strength of one is not known. What is added against
/// tailing does not count.
[[nodiscard]] std::string strongest_solvent(const std::vector<SolventPart> &eluent);

/// What of an eluent tells nothing about its strength, a clause each: names that are not
/// understood, and solvents whose strength is not known here.
[[nodiscard]] std::vector<std::string> eluent_doubts(const std::vector<SolventPart> &eluent);

/// What the target is expected to show in a mixture of the same two solvents.
struct MixtureExpectation {
    std::string mobile_phase;
    double strong_fraction = 0.0; ///< volume fraction of the stronger solvent
    ExpectedRetention expected;
};

/// A mixture between two others, by R_M = a - n log10(phi), phi the volume fraction of the stronger
/// solvent (soczewinski1969, from memory).
struct MixtureBetween {
    double strong_fraction = 0.0;
    std::string lower; ///< mobile phases between which it lies
    std::string upper;
};

/// The volume fraction at which R_F is `wanted`, between two mixtures with an R_F each; none unless
/// both R_F lie between 0 and 1, excluded, and on both sides of `wanted`, and both fractions are
/// above 0: nothing is extrapolated.
[[nodiscard]] std::optional<double> fraction_for(double wanted, double fraction_a, double rf_a,
                                                 double fraction_b, double rf_b);

/// What the library says about the target in other mixtures of the same two solvents.
struct EluentAdvice {
    std::string strong_solvent;
    std::string weak_solvent;
    std::string additives; ///< " + 1 % triethylamine", which all these mixtures have; or empty
    std::vector<MixtureExpectation> mixtures; ///< from weak to strong, the present one among them
    std::optional<MixtureBetween> between;    ///< where no mixture is in the wanted range
};

/// Looks up all systems of the library that differ from `system` in the proportion of its two
/// solvents only, with the same additive if any. Empty lists where it has not two solvents of known
/// strength. Loads RDKit.
[[nodiscard]] EluentAdvice advise_eluent(RetentionModels &models, const library::System &system,
                                         const AskedCompound &target);

} // namespace cospot

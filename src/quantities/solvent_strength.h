#pragma once

#include "shared/eluent.h"

#include <string_view>
#include <vector>

namespace cospot::quantities {

// Strengths order solvents and mixtures. They are no basis for exact figures: published tables
// differ by the tolerance that stands with each value, and a plate in a chamber adds its own.

enum class Adsorbent { silica, alumina };

/// A published value of one solvent.
struct SolventValue {
    std::string_view solvent; ///< the name this program uses
    double value;
    double tolerance; ///< within it published tables differ, estimated
    std::string_view source;
    bool from_memory; ///< the source was not at hand when the value was written down
};

/// The solvents with a value of any kind, by the names this program uses, from weak to strong.
[[nodiscard]] std::vector<std::string_view> known_solvents();

/// The name this program uses for a solvent: "EtOAc", "EA" and "Ethyl Acetate" are "ethyl acetate".
/// Throws InputError naming a solvent that is not known.
[[nodiscard]] std::string_view solvent_name(std::string_view text);

/// Solvent strength eps0 (adsorption energy per unit area, no unit) on an adsorbent; 0 is pentane.
/// For silica: L. R. Snyder, J. J. Kirkland, J. L. Glajch, Practical HPLC Method Development
/// (1997); for alumina: L. R. Snyder, Principles of Adsorption Chromatography (1968) and J.
/// Chromatogr. 1974, 92, 223. Throws InputError for a solvent that is not known or without value on
/// that adsorbent.
[[nodiscard]] SolventValue solvent_strength(std::string_view solvent, Adsorbent adsorbent);

/// Solvent polarity P' (no unit): L. R. Snyder, J. Chromatogr. 1974, 92, 223 and J. Chromatogr.
/// Sci. 1978, 16, 223. Throws InputError for a solvent that is not known or has no value.
[[nodiscard]] SolventValue solvent_polarity(std::string_view solvent);

/// Molar volume in mL/mol at 25 degrees C: molar mass over density, densities from memory.
/// Throws InputError for a solvent that is not known, or a mixture such as petroleum ether.
[[nodiscard]] double molar_volume_ml(std::string_view solvent);

/// Mole fractions from volumes in mL (or volume parts) and molar volumes in mL/mol, both in the
/// same order, of liquids that mix without change of volume. Throws InputError for a volume below
/// 0, volumes that are all 0, a molar volume that is not above 0, or lists of different lengths.
[[nodiscard]] std::vector<double> mole_fractions(const std::vector<double> &volumes,
                                                 const std::vector<double> &molar_volumes_ml);

/// The weaker solvent A and the stronger solvent B of an eluent.
struct BinaryEluent {
    double strength_a;      ///< eps0 of A
    double strength_b;      ///< eps0 of B, at least that of A
    double mole_fraction_b; ///< 0 to 1
    double
        area_b; ///< n_b, area of a molecule of B on the adsorbent in units of 8.5 square angstrom
    double activity; ///< alpha of the adsorbent, about 0.6 to 1
};

/// Strength of a binary eluent, eps_A + log10(X_B 10^(alpha n_b (eps_B - eps_A)) + 1 - X_B) /
/// (alpha n_b): L. R. Snyder, Principles of Adsorption Chromatography (1968). Rises steeply at
/// small X_B. Throws InputError for a value out of the range given above.
[[nodiscard]] double binary_eluent_strength(const BinaryEluent &eluent);

/// Polarity P' of a mixture, the mean of its solvents weighted by volume: L. R. Snyder, J.
/// Chromatogr. Sci. 1978, 16, 223. Throws what `solvent_polarity` and `volume_fractions` throw.
[[nodiscard]] double eluent_polarity(const std::vector<SolventPart> &eluent);

/// The factor by which k changes from an eluent of polarity P'_1 to P'_2: 10^((P'_1 - P'_2)/2) on a
/// polar phase, its inverse on a reversed phase. A rule of thumb: L. R. Snyder, J. Chromatogr.
/// 1974, 92, 223. Throws InputError for a polarity that is not finite.
[[nodiscard]] double normal_phase_retention_change(double polarity_1, double polarity_2);
[[nodiscard]] double reversed_phase_retention_change(double polarity_1, double polarity_2);

} // namespace cospot::quantities

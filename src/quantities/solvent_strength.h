#pragma once

#include <string_view>

namespace cospot::quantities {

// Strengths and polarities order solvents. They are no basis for exact figures: published tables
// differ by some 0.03 in eps0 on alumina, 0.05 on silica and 0.3 in P', and a plate in a chamber
// adds its own.

enum class Adsorbent { silica, alumina };

/// The name this program uses for a solvent: "EtOAc", "EA" and "Ethyl Acetate" are "ethyl acetate".
/// Throws InputError naming a solvent that is not known.
[[nodiscard]] std::string_view solvent_name(std::string_view text);

/// Solvent strength eps0 (adsorption energy per unit area, no unit) on an adsorbent; 0 is pentane.
/// For silica: L. R. Snyder, J. J. Kirkland, J. L. Glajch, Practical HPLC Method Development
/// (1997); for alumina: L. R. Snyder, Principles of Adsorption Chromatography (1968) and J.
/// Chromatogr. 1974, 92, 223. Throws InputError for a solvent that is not known or without value on
/// that adsorbent.
[[nodiscard]] double solvent_strength(std::string_view solvent, Adsorbent adsorbent);

/// Solvent polarity P' (no unit): L. R. Snyder, J. Chromatogr. 1974, 92, 223 and J. Chromatogr.
/// Sci. 1978, 16, 223. Throws InputError for a solvent that is not known or has no value.
[[nodiscard]] double solvent_polarity(std::string_view solvent);

} // namespace cospot::quantities

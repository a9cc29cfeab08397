#pragma once

#include <string>

namespace RDKit {
class ROMol;
}

namespace cospot::descriptors {

/// Molecular formula in Hill order (E. A. Hill, J. Am. Chem. Soc. 1900, 22, 478): carbon, hydrogen,
/// then the other symbols by the alphabet; without carbon all by the alphabet (HCl is "ClH").
/// Isotopes are not told apart; a net charge stands at the end ("H4N+", "Ca+2").
[[nodiscard]] std::string hill_formula(const RDKit::ROMol &molecule);

} // namespace cospot::descriptors

#pragma once

namespace RDKit {
class ROMol;
}

namespace cospot::descriptors {

/// Half the sum of the distances between all pairs of heavy atoms, counted in bonds; pairs in
/// different fragments do not count. H. Wiener, J. Am. Chem. Soc. 1947, 69, 17.
[[nodiscard]] double wiener_index(const RDKit::ROMol &molecule);

/// m/(mu+1) times the sum over bonds of 1/sqrt(s_i s_j), where m is the number of bonds, mu the
/// number of rings and s_i the sum of an atom's distances, a bond being 1/order long (1.5 if
/// aromatic). A. T. Balaban, Chem. Phys. Lett. 1982, 89, 399. Summed over fragments; 0 without
/// bonds.
[[nodiscard]] double balaban_j(const RDKit::ROMol &molecule);

} // namespace cospot::descriptors

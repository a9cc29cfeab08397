#pragma once

namespace RDKit {
class RWMol;
}

namespace cospot::descriptors {

/// Gives the molecule coordinates in two dimensions from which its stereochemistry can be read:
/// beyond RDKit's own layout, an (E) double bond of a large ring points into the ring, and one that
/// is left open there is marked to be drawn crossed.
void draw(RDKit::RWMol &molecule);

} // namespace cospot::descriptors

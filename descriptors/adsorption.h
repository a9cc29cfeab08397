#pragma once

#include "descriptors/descriptors.h"

#include <string>
#include <string_view>
#include <vector>

namespace cospot::descriptors {

/// What one kind of group adds to the adsorption on silica.
struct GroupAdsorption {
    std::string group; ///< a name of descriptors/data/silica_adsorption.tsv
    int count = 0;
    double energy = 0.0;     ///< of one such group, dimensionless
    bool by_analogy = false; ///< the energy is that of a similar group: not in the source's table
};

/// How strongly a structure is held by silica, for rank order only: the energies are remembered
/// from one book and marked as of low confidence there.
struct SilicaAdsorption {
    /// The strongest polar group counts in full: it sits on the adsorption site (localises). Every
    /// other polar group counts half, being held off the sites by the first. The half is our own
    /// simplification of the source, where the share falls with the energy of the first group. The
    /// carbon skeleton, aromatic fluorine to iodine among it, counts in full. Dimensionless; larger
    /// is held longer.
    double energy = 0.0;
    std::string strongest_group;         ///< empty where the structure has no polar group
    std::vector<GroupAdsorption> groups; ///< those that occur, in the order of the table
    bool uses_analogy = false;           ///< some group that occurs is estimated by analogy
    int heteroatoms_left_out = 0;        ///< in no group of the table: the energy is too low
};

/// Adsorption on silica from group energies: snyder1968, energies from memory, see the data file.
/// Blind to stereochemistry and to what stands between the groups, but for phenols with an internal
/// hydrogen bond. Throws what `describe` throws.
[[nodiscard]] SilicaAdsorption silica_adsorption(std::string_view smiles);

/// How long a reversed phase holds a neutral structure, for rank order only: larger log P, longer.
/// At equal log P the larger polar surface usually elutes first (common practice, no source).
struct Hydrophobicity {
    double crippen_logp = 0.0; ///< as in Descriptors
    double tpsa = 0.0;         ///< as in Descriptors, square angstrom
};

[[nodiscard]] Hydrophobicity hydrophobicity(const Descriptors &descriptors);

} // namespace cospot::descriptors

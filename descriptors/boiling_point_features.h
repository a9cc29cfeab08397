#pragma once

#include <string>
#include <vector>

namespace RDKit {
class ROMol;
}

namespace cospot::descriptors {

/// What the boiling-point model is linear in. With N heavy atoms: descriptors d (sizes, polar
/// surface, connectivity, sums of published group contributions) and counts g of the groups in
/// data/boiling_point_features.tsv; then d / sqrt N, g / sqrt N and whether g > 0, because what a
/// group adds shrinks with the size of the molecule and with every further group of its kind.
struct BoilingPointFeatures {
    std::vector<double> values; ///< in the order of `boiling_point_feature_names`
    /// Share of the heavy atoms at which polar places meet: of the atom itself and its neighbours
    /// at least two are heteroatoms, or carbons of a triple bond among the neighbours. What groups
    /// add up to is off where they feel each other (the dipoles of cyanogen cancel).
    double crowded = 0.0;
    std::string missing; ///< a heavy atom in no group, in words; empty where there is none
};

[[nodiscard]] BoilingPointFeatures boiling_point_features(const RDKit::ROMol &molecule);

/// For d, g, d / sqrt N, g / sqrt N and g > 0, in this order: "molar_refractivity", "-CH3",
/// "molar_refractivity by size", "-CH3 by size", "any -CH3".
[[nodiscard]] std::vector<std::string> boiling_point_feature_names();

} // namespace cospot::descriptors

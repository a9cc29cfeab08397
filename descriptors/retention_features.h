#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace cospot::descriptors {

/// What a structure says about itself, for learning retention from other structures.
struct RetentionFeatures {
    /// The named descriptors (`as_vector`), then surface areas by polarity, refractivity and charge
    /// (P. Labute, J. Mol. Graph. Model. 2000, 18, 464) and four sums of partial charges
    /// (J. Gasteiger, M. Marsili, Tetrahedron 1980, 36, 3219); as many for every structure.
    std::vector<double> descriptors;
    /// Numbers of the atom environments up to two bonds wide, over features such as donor, acceptor
    /// and aromatic (D. Rogers, M. Hahn, J. Chem. Inf. Model. 2010, 50, 742), with how often each
    /// occurs, sorted by number.
    std::vector<std::pair<std::uint32_t, std::uint16_t>> environments;
};

/// Describes the structure as it is given; give `Structure::parent_smiles`, so that a salt and its
/// free form agree. May be called from several threads. Throws what `read_smiles` throws.
[[nodiscard]] RetentionFeatures retention_features(std::string_view smiles);

/// Features of two versions cannot be compared: whoever changes what the features are raises ours;
/// RDKit's own version is the other half.
[[nodiscard]] std::string retention_features_version();

} // namespace cospot::descriptors

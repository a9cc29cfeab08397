#pragma once

#include "descriptors/functional_groups.h"

#include <string>
#include <string_view>
#include <vector>

namespace cospot::descriptors {

/// Numbers that follow from a structure alone. There is no charge at a pH among them: it needs pKa
/// values, which no part of this project predicts.
struct Descriptors {
    /// log10 of the octanol-water partition coefficient and molar refractivity (cm3/mol), sums of
    /// atom contributions: S. A. Wildman, G. M. Crippen, J. Chem. Inf. Comput. Sci. 1999, 39, 868.
    /// A trend, not a measurement: common solvents deviate by 0.7 (root mean square), decane by 2.
    double crippen_logp = 0.0;
    double crippen_molar_refractivity = 0.0;
    /// Topological polar surface area of nitrogen and oxygen, square angstrom: P. Ertl, B. Rohde,
    /// P. Selzer, J. Med. Chem. 2000, 43, 3714. Sulfur and phosphorus do not count.
    double tpsa = 0.0;
    /// Approximate surface area, square angstrom: P. Labute, J. Mol. Graph. Model. 2000, 18, 464.
    double labute_surface = 0.0;
    /// Hydrogens on nitrogen and oxygen; nitrogens and oxygens: C. A. Lipinski et al., Adv. Drug
    /// Deliv. Rev. 1997, 23, 3.
    int hydrogen_bond_donors = 0;
    int hydrogen_bond_acceptors = 0;
    int rotatable_bonds = 0; ///< single bonds outside rings between heavy chains; no amide bonds
    int rings = 0;           ///< smallest set of smallest rings
    int aromatic_rings = 0;
    int heavy_atoms = 0;       ///< all but hydrogen
    double fraction_sp3 = 0.0; ///< saturated carbons among all carbons
    int halogens = 0;
    int stereocentres = 0; ///< tetrahedral, given or left open
    int formal_charge = 0;
    /// Half the sum of all distances, counted in bonds: H. Wiener, J. Am. Chem. Soc. 1947, 69, 17.
    /// Between fragments no distance counts.
    double wiener_index = 0.0;
    /// With bond orders as distances: A. T. Balaban, Chem. Phys. Lett. 1982, 89, 399. Of several
    /// fragments the sum; 0 for a single atom.
    double balaban_j = 0.0;
    /// Valence connectivity of order 0 to 3: L. B. Kier, L. H. Hall, Molecular Connectivity in
    /// Structure-Activity Analysis (1986).
    double chi0v = 0.0;
    double chi1v = 0.0;
    double chi2v = 0.0;
    double chi3v = 0.0;
    /// Shape of order 1 and 2, its correction for atoms, and flexibility: L. H. Hall, L. B. Kier,
    /// Rev. Comput. Chem. 1991, 2, 367. Order 3 is left out: RDKit computes it by another formula.
    double kappa1 = 0.0;
    double kappa2 = 0.0;
    double hall_kier_alpha = 0.0;
    double kier_flexibility = 0.0;
    std::vector<int> groups; ///< counts in the order of `functional_groups`
};

/// Describes the structure as it is given, all fragments and charges. For retention describe
/// `Structure::parent_smiles`, so that a salt and its free base get the same numbers. May be called
/// from several threads. Throws what `read_smiles` throws.
[[nodiscard]] Descriptors describe(std::string_view smiles);

/// Describes the uncharged parent, with one reading of the SMILES.
[[nodiscard]] Descriptors describe_parent(std::string_view smiles);

/// The names of what `as_vector` gives: the members above in their order, then "group_NAME".
[[nodiscard]] const std::vector<std::string> &descriptor_names();

/// All numbers of a description in the order of `descriptor_names`. A description without groups
/// gives zeros for them.
[[nodiscard]] std::vector<double> as_vector(const Descriptors &descriptors);

} // namespace cospot::descriptors

#include "descriptors/topology.h"

#include <GraphMol/GraphMol.h>
#include <GraphMol/MolOps.h>

#include <cmath>
#include <vector>

namespace cospot::descriptors {

namespace {

/// Atoms of different fragments are at least this far apart in RDKit's matrix.
constexpr double unreachable = 1e6;

/// For each atom, the sum of its distances to the atoms of its fragment, a bond 1/order long.
std::vector<double> distance_sums(const RDKit::ROMol &molecule) {
    const std::size_t atoms = molecule.getNumAtoms();
    const double *distances =
        RDKit::MolOps::getDistanceMat(molecule, /*useBO=*/true); // the molecule keeps and frees it
    std::vector<double> sums(atoms, 0.0);
    for (std::size_t row = 0; row < atoms; ++row) {
        for (std::size_t column = 0; column < atoms; ++column) {
            const double distance = distances[row * atoms + column];
            sums[row] += distance < unreachable ? distance : 0.0;
        }
    }
    return sums;
}

/// The sum of the distances, counted in bonds, from one atom to all that can be reached from it.
double bonds_from(const RDKit::ROMol &molecule, unsigned start) {
    constexpr int not_reached = -1;
    std::vector<int> distance(molecule.getNumAtoms(), not_reached);
    std::vector<unsigned> reached{start};
    distance[start] = 0;
    double sum = 0.0;
    for (std::size_t next = 0; next < reached.size(); ++next) {
        const unsigned here = reached[next];
        sum += distance[here];
        for (const RDKit::Atom *neighbour : molecule.atomNeighbors(molecule.getAtomWithIdx(here))) {
            if (distance[neighbour->getIdx()] == not_reached) {
                distance[neighbour->getIdx()] = distance[here] + 1;
                reached.push_back(neighbour->getIdx());
            }
        }
    }
    return sum;
}

struct Fragment {
    int atoms = 0;
    int bonds = 0;
    double sum = 0.0; ///< of 1/sqrt(s_i s_j) over its bonds
};

} // namespace

double wiener_index(const RDKit::ROMol &molecule) {
    double total = 0.0;
    for (unsigned atom = 0; atom < molecule.getNumAtoms(); ++atom) {
        total += bonds_from(molecule, atom);
    }
    return total / 2.0;
}

double balaban_j(const RDKit::ROMol &molecule) {
    const std::vector<double> sums = distance_sums(molecule);
    std::vector<int> fragment_of_atom;
    std::vector<Fragment> fragments(RDKit::MolOps::getMolFrags(molecule, fragment_of_atom));
    for (const int fragment : fragment_of_atom) {
        ++fragments[static_cast<std::size_t>(fragment)].atoms;
    }
    for (const RDKit::Bond *bond : molecule.bonds()) {
        const unsigned begin = bond->getBeginAtomIdx();
        Fragment &fragment = fragments[static_cast<std::size_t>(fragment_of_atom[begin])];
        ++fragment.bonds;
        fragment.sum += 1.0 / std::sqrt(sums[begin] * sums[bond->getEndAtomIdx()]);
    }
    double total = 0.0;
    for (const Fragment &fragment : fragments) {
        const int rings = fragment.bonds - fragment.atoms + 1;
        total += fragment.bonds * fragment.sum / (rings + 1);
    }
    return total;
}

} // namespace cospot::descriptors

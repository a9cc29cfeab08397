#include "descriptors/drawing.h"

#include <Geometry/point.h>
#include <GraphMol/Conformer.h>
#include <GraphMol/Depictor/RDDepictor.h>
#include <GraphMol/GraphMol.h>

#include <vector>

namespace cospot::descriptors {

namespace {

/// Smaller rings hold (Z) double bonds only.
constexpr unsigned smallest_ring_with_stereo = 8;

bool is_in_large_ring(const RDKit::RWMol &molecule, const RDKit::Bond &bond) {
    return bond.getBondType() == RDKit::Bond::DOUBLE &&
           molecule.getRingInfo()->minBondRingSize(bond.getIdx()) >= smallest_ring_with_stereo;
}

/// The neighbours of a ring atom in its only ring, and none where it is in several.
std::vector<unsigned> ring_neighbours(const RDKit::RWMol &molecule, unsigned atom) {
    std::vector<unsigned> neighbours;
    if (molecule.getRingInfo()->numAtomRings(atom) != 1) {
        return neighbours;
    }
    for (const RDKit::Bond *bond : molecule.atomBonds(molecule.getAtomWithIdx(atom))) {
        if (molecule.getRingInfo()->numBondRings(bond->getIdx()) > 0) {
            neighbours.push_back(bond->getOtherAtomIdx(atom));
        }
    }
    return neighbours;
}

/// The atom and all that hangs on it outside its ring.
std::vector<unsigned> with_branches(const RDKit::RWMol &molecule, unsigned ring_atom) {
    std::vector<bool> seen(molecule.getNumAtoms(), false);
    std::vector<unsigned> found{ring_atom};
    seen[ring_atom] = true;
    for (std::size_t next = 0; next < found.size(); ++next) {
        for (const RDKit::Bond *bond : molecule.atomBonds(molecule.getAtomWithIdx(found[next]))) {
            const unsigned other = bond->getOtherAtomIdx(found[next]);
            const bool along_ring = found[next] == ring_atom &&
                                    molecule.getRingInfo()->numBondRings(bond->getIdx()) > 0;
            if (!along_ring && !seen[other]) {
                seen[other] = true;
                found.push_back(other);
            }
        }
    }
    return found;
}

RDGeom::Point3D mirrored(const RDGeom::Point3D &point, const RDGeom::Point3D &from,
                         const RDGeom::Point3D &to) {
    const RDGeom::Point3D axis = to - from;
    const double along = (point - from).dotProduct(axis) / axis.lengthSq();
    const RDGeom::Point3D foot = from + axis * along;
    return foot + foot - point;
}

/// RDKit lays a ring out as a polygon, in which every double bond looks (Z). Mirroring one of its
/// atoms at the line between its ring neighbours makes it (E).
void point_into_ring(RDKit::RWMol &molecule, const RDKit::Bond &bond) {
    for (const unsigned atom : {bond.getBeginAtomIdx(), bond.getEndAtomIdx()}) {
        const std::vector<unsigned> neighbours = ring_neighbours(molecule, atom);
        if (neighbours.size() == 2) {
            RDKit::Conformer &drawing = molecule.getConformer();
            const RDGeom::Point3D from = drawing.getAtomPos(neighbours[0]);
            const RDGeom::Point3D to = drawing.getAtomPos(neighbours[1]);
            for (const unsigned moved : with_branches(molecule, atom)) {
                drawing.setAtomPos(moved, mirrored(drawing.getAtomPos(moved), from, to));
            }
            return;
        }
    }
}

/// Whether the stereo atoms of the double bond, which may be branches, are drawn on one side.
bool is_drawn_together(const RDKit::RWMol &molecule, const RDKit::Bond &bond) {
    const RDKit::Conformer &drawing = molecule.getConformer();
    const RDGeom::Point3D begin = drawing.getAtomPos(bond.getBeginAtomIdx());
    const RDGeom::Point3D axis = drawing.getAtomPos(bond.getEndAtomIdx()) - begin;
    const auto side = [&](int atom) {
        const RDGeom::Point3D away = drawing.getAtomPos(static_cast<unsigned>(atom)) - begin;
        return axis.x * away.y - axis.y * away.x;
    };
    return side(bond.getStereoAtoms()[0]) * side(bond.getStereoAtoms()[1]) > 0;
}

bool is_drawn_wrongly(const RDKit::RWMol &molecule, const RDKit::Bond &bond) {
    const RDKit::Bond::BondStereo stereo = bond.getStereo();
    const bool together = stereo == RDKit::Bond::STEREOZ || stereo == RDKit::Bond::STEREOCIS;
    const bool opposite = stereo == RDKit::Bond::STEREOE || stereo == RDKit::Bond::STEREOTRANS;
    return (together || opposite) && bond.getStereoAtoms().size() == 2 &&
           is_drawn_together(molecule, bond) != together;
}

} // namespace

void draw(RDKit::RWMol &molecule) {
    RDDepict::compute2DCoords(molecule);
    for (RDKit::Bond *bond : molecule.bonds()) {
        if (!is_in_large_ring(molecule, *bond)) {
            continue;
        }
        if (bond->getStereo() == RDKit::Bond::STEREONONE) {
            bond->setStereo(RDKit::Bond::STEREOANY);
        } else if (is_drawn_wrongly(molecule, *bond)) {
            point_into_ring(molecule, *bond);
        }
    }
}

} // namespace cospot::descriptors

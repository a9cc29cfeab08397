#include "descriptors/inchi.h"

#include "shared/error.h"

#include <GraphMol/GraphMol.h>
#include <GraphMol/MolOps.h>
#include <fmt/format.h>
#include <inchi_api.h>

#include <array>
#include <mutex>
#include <optional>
#include <vector>

namespace cospot::descriptors {

namespace {

[[noreturn]] void refuse(const std::string &reason) {
    throw InputError({}, "a structure without InChI: " + reason,
                     "a structure that InChI describes");
}

AT_NUM number(unsigned index) {
    return static_cast<AT_NUM>(index);
}

S_CHAR bond_type(const RDKit::Bond &bond) {
    switch (bond.getBondType()) {
    case RDKit::Bond::SINGLE:
    case RDKit::Bond::DATIVE: // InChI cuts bonds to metals anyway
        return INCHI_BOND_TYPE_SINGLE;
    case RDKit::Bond::DOUBLE:
        return INCHI_BOND_TYPE_DOUBLE;
    case RDKit::Bond::TRIPLE:
        return INCHI_BOND_TYPE_TRIPLE;
    default:
        refuse("it has a bond that is not single, double, triple or aromatic");
    }
}

inchi_Atom inchi_atom(const RDKit::Atom &atom) {
    inchi_Atom result{};
    fmt::format_to_n(result.elname, ATOM_EL_LEN - 1, "{}", atom.getSymbol());
    result.charge = static_cast<S_CHAR>(atom.getFormalCharge());
    result.isotopic_mass = number(atom.getIsotope());
    result.num_iso_H[0] = static_cast<S_CHAR>(atom.getTotalNumHs());
    switch (atom.getNumRadicalElectrons()) {
    case 0:
        break;
    case 1:
        result.radical = INCHI_RADICAL_DOUBLET;
        break;
    default:
        result.radical = INCHI_RADICAL_TRIPLET;
    }
    return result;
}

/// Of a molecule without aromatic bonds. Each bond stands once, in the list of its first atom.
std::vector<inchi_Atom> inchi_atoms(const RDKit::ROMol &molecule) {
    std::vector<inchi_Atom> atoms;
    atoms.reserve(molecule.getNumAtoms());
    for (const RDKit::Atom *atom : molecule.atoms()) {
        if (atom->getDegree() > MAXVAL) {
            refuse(fmt::format("an atom has more than {} neighbours", MAXVAL));
        }
        atoms.push_back(inchi_atom(*atom));
    }
    for (const RDKit::Bond *bond : molecule.bonds()) {
        inchi_Atom &atom = atoms[bond->getBeginAtomIdx()];
        const auto slot = static_cast<std::size_t>(atom.num_bonds++);
        atom.neighbor[slot] = number(bond->getEndAtomIdx());
        atom.bond_type[slot] = bond_type(*bond);
    }
    return atoms;
}

/// RDKit gives the turn of the later neighbours, in the order of the bonds, seen from the first;
/// with three neighbours the hydrogen or lone pair counts as the last. InChI wants the turn of the
/// last three of four seen from the first, and the centre itself, put first, for a missing one;
/// moving the last of four to the front is an odd permutation, so the turn changes.
std::optional<inchi_Stereo0D> tetrahedral_stereo(const RDKit::ROMol &molecule,
                                                 const RDKit::Atom &atom) {
    const bool clockwise = atom.getChiralTag() == RDKit::Atom::CHI_TETRAHEDRAL_CW;
    if (!clockwise && atom.getChiralTag() != RDKit::Atom::CHI_TETRAHEDRAL_CCW) {
        return std::nullopt;
    }
    const unsigned degree = atom.getDegree();
    if (degree != 3 && degree != 4) {
        return std::nullopt;
    }
    inchi_Stereo0D stereo{};
    stereo.central_atom = number(atom.getIdx());
    stereo.type = INCHI_StereoType_Tetrahedral;
    std::size_t slot = 0;
    if (degree == 3) {
        stereo.neighbor[slot++] = number(atom.getIdx());
    }
    for (const RDKit::Bond *bond : molecule.atomBonds(&atom)) {
        stereo.neighbor[slot++] = number(bond->getOtherAtomIdx(atom.getIdx()));
    }
    const bool even = clockwise == (degree == 4);
    stereo.parity = even ? INCHI_PARITY_EVEN : INCHI_PARITY_ODD;
    return stereo;
}

std::optional<inchi_Stereo0D> double_bond_stereo(const RDKit::Bond &bond) {
    const RDKit::Bond::BondStereo kind = bond.getStereo();
    const bool opposite = kind == RDKit::Bond::STEREOE || kind == RDKit::Bond::STEREOTRANS;
    const bool together = kind == RDKit::Bond::STEREOZ || kind == RDKit::Bond::STEREOCIS;
    if ((!opposite && !together) || bond.getStereoAtoms().size() != 2) {
        return std::nullopt;
    }
    inchi_Stereo0D stereo{};
    stereo.central_atom = NO_ATOM;
    stereo.type = INCHI_StereoType_DoubleBond;
    stereo.neighbor[0] = static_cast<AT_NUM>(bond.getStereoAtoms()[0]);
    stereo.neighbor[1] = number(bond.getBeginAtomIdx());
    stereo.neighbor[2] = number(bond.getEndAtomIdx());
    stereo.neighbor[3] = static_cast<AT_NUM>(bond.getStereoAtoms()[1]);
    stereo.parity = opposite ? INCHI_PARITY_EVEN : INCHI_PARITY_ODD;
    return stereo;
}

std::vector<inchi_Stereo0D> inchi_stereo(const RDKit::ROMol &molecule) {
    std::vector<inchi_Stereo0D> result;
    for (const RDKit::Atom *atom : molecule.atoms()) {
        if (const auto stereo = tetrahedral_stereo(molecule, *atom)) {
            result.push_back(*stereo);
        }
    }
    for (const RDKit::Bond *bond : molecule.bonds()) {
        if (const auto stereo = double_bond_stereo(*bond)) {
            result.push_back(*stereo);
        }
    }
    return result;
}

/// Gives the strings of an InChI call back to the library that allocated them.
struct Output {
    inchi_Output strings{};

    Output() = default;
    Output(const Output &) = delete;
    Output &operator=(const Output &) = delete;
    ~Output() { FreeINCHI(&strings); }
};

/// The InChI made with the options; without options that change its kind it is the standard one.
std::string inchi_text(inchi_Input &input, std::string options) {
    input.szOptions = options.data();
    Output output;
    const int outcome = GetINCHI(&input, &output.strings);
    if (outcome != inchi_Ret_OKAY && outcome != inchi_Ret_WARNING) {
        const char *message = output.strings.szMessage;
        refuse(message != nullptr && *message != '\0' ? message : "no reason given");
    }
    if (output.strings.szInChI == nullptr || *output.strings.szInChI == '\0') {
        refuse("InChI returns nothing for it");
    }
    return output.strings.szInChI;
}

std::string key_of(const std::string &inchi) {
    std::array<char, 28> key{};
    if (GetINCHIKeyFromINCHI(inchi.c_str(), 0, 0, key.data(), nullptr, nullptr) != INCHIKEY_OK) {
        refuse("InChI makes no key of it");
    }
    return key.data();
}

/// Made with the option SUU an InChI marks each stereocentre (layer t) and double bond (layer b)
/// that is not given with a question mark; no other layer has one.
bool has_open_stereo(const std::string &inchi) {
    return inchi.find('?') != std::string::npos;
}

std::vector<inchi_Atom> kekulized_atoms(const RDKit::ROMol &molecule) {
    RDKit::RWMol copy(molecule);
    RDKit::MolOps::Kekulize(copy, /*markAtomsBonds=*/true);
    return inchi_atoms(copy);
}

/// The molecule as libinchi takes it. `input` points into the two lists.
struct Request {
    std::vector<inchi_Atom> atoms;
    std::vector<inchi_Stereo0D> stereo;
    inchi_Input input{};

    explicit Request(const RDKit::ROMol &molecule)
        : atoms(kekulized_atoms(molecule)), stereo(inchi_stereo(molecule)) {
        input.atom = atoms.data();
        input.num_atoms = static_cast<AT_NUM>(atoms.size());
        input.stereo0D = stereo.data();
        input.num_stereo0D = static_cast<AT_NUM>(stereo.size());
    }
    Request(const Request &) = delete;
    Request &operator=(const Request &) = delete;
};

// Options of libinchi; each gives up after 10 seconds.
constexpr const char *standard = "-AuxNone -W10";
constexpr const char *with_open_stereo = "-SUU -AuxNone -W10";
constexpr const char *with_more_tautomers = "-KET -15T -SNon -AuxNone -W10";

std::mutex &one_at_a_time() {
    static std::mutex mutex;
    return mutex;
}

} // namespace

Inchi inchi_of(const RDKit::ROMol &molecule) {
    Request request(molecule);
    const std::lock_guard lock(one_at_a_time());
    Inchi result;
    result.text = inchi_text(request.input, standard);
    result.key = key_of(result.text);
    result.has_open_stereo = has_open_stereo(inchi_text(request.input, with_open_stereo));
    return result;
}

std::string inchikey_of(const RDKit::ROMol &molecule) {
    Request request(molecule);
    const std::lock_guard lock(one_at_a_time());
    return key_of(inchi_text(request.input, standard));
}

std::string tautomer_hash_of(const RDKit::ROMol &molecule) {
    constexpr std::size_t connectivity_block = 14;
    Request request(molecule);
    const std::lock_guard lock(one_at_a_time());
    return key_of(inchi_text(request.input, with_more_tautomers)).substr(0, connectivity_block);
}

} // namespace cospot::descriptors

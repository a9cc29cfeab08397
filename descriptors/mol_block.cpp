#include "descriptors/mol_block_text.h"
#include "descriptors/molecule.h"
#include "descriptors/origin.h"
#include "shared/text.h"

#include <GraphMol/FileParsers/FileParsers.h>
#include <GraphMol/GraphMol.h>
#include <GraphMol/MolOps.h>
#include <GraphMol/SanitException.h>
#include <GraphMol/StereoGroup.h>
#include <GraphMol/SubstanceGroup.h>
#include <RDGeneral/FileParseException.h>
#include <RDGeneral/Invariant.h>
#include <RDGeneral/LocaleSwitcher.h>
#include <RDGeneral/RDLog.h>

#include <GraphMol/FileParsers/FileParserUtils.h> // leans on the headers above

#include <algorithm>
#include <array>
#include <sstream>
#include <string>
#include <string_view>

namespace cospot::descriptors {

namespace {

/// Reads the three lines above the counts; the second says whether coordinates have a depth.
void read_heading(std::istream &in, RDKit::RWMol &molecule) {
    constexpr std::size_t dimension_column = 20;
    std::array<std::string, 3> lines;
    for (std::string &line : lines) {
        std::getline(in, line);
    }
    if (lower_ascii(lines[1]).compare(std::min(dimension_column, lines[1].size()), 2, "3d") == 0) {
        molecule.setProp(RDKit::common_properties::_3DConf, 1);
    }
}

/// A drawing that the parser allocates: null as soon as the molecule owns it.
struct Drawing {
    RDKit::Conformer *conformer = nullptr;

    Drawing() = default;
    Drawing(const Drawing &) = delete;
    Drawing &operator=(const Drawing &) = delete;
    ~Drawing() { delete conformer; }
};

/// Reads atoms, bonds and properties; returns whether there may be stereocentres.
bool read_contents(std::istream &in, RDKit::RWMol &molecule) {
    namespace Utils = RDKit::FileParserUtils;
    std::string counts;
    std::getline(in, counts);
    unsigned line = 4;
    unsigned atoms = 0; // set by the newer form
    unsigned bonds = 0;
    bool may_be_chiral = false;
    Drawing drawing;
    bool complete = false;
    if (is_extended_block(counts)) {
        complete = Utils::ParseV3000CTAB(&in, line, &molecule, drawing.conformer, may_be_chiral,
                                         atoms, bonds);
    } else {
        atoms = Utils::toUnsigned(counts.substr(0, 3), /*acceptSpaces=*/true);
        bonds = Utils::toUnsigned(counts.substr(3, 3), /*acceptSpaces=*/true);
        complete = Utils::ParseV2000CTAB(&in, line, &molecule, drawing.conformer, may_be_chiral,
                                         atoms, bonds);
    }
    if (!complete) {
        throw RDKit::FileParseException("its lines end too early");
    }
    return may_be_chiral;
}

/// As RDKit's MolBlockToMol, which loses the molecule where a line cannot be read.
std::unique_ptr<RDKit::RWMol> parsed_block(std::string_view block, bool sanitize) {
    const RDKit::Utils::LocaleSwitcher decimal_points;
    std::istringstream in{std::string(block)};
    auto molecule = std::make_unique<RDKit::RWMol>();
    read_heading(in, *molecule);
    const bool may_be_chiral = read_contents(in, *molecule);
    if (const std::string fault = contents_fault(*molecule); !fault.empty()) {
        refuse(mol_block_origin(block), fault); // before rings are searched for
    }
    RDKit::RWMol *raw = molecule.release(); // which is deleted below where it cannot be finished
    RDKit::FileParserUtils::finishMolProcessing(raw, may_be_chiral, sanitize,
                                                /*removeHs=*/sanitize);
    molecule.reset(raw);
    return molecule;
}

/// A repeating unit or a mixture is not one compound: the kinds of substance groups that say so.
bool has_repeating_units(const RDKit::ROMol &molecule) {
    constexpr std::array<std::string_view, 10> kinds{"SRU", "MON", "MER", "COP", "CRO",
                                                     "GRA", "MOD", "ANY", "MIX", "FOR"};
    const auto &groups = RDKit::getSubstanceGroups(molecule);
    return std::any_of(groups.begin(), groups.end(), [&](const RDKit::SubstanceGroup &group) {
        std::string kind;
        return group.getPropIfPresent("TYPE", kind) &&
               std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
    });
}

/// Centres drawn as "this or its mirror image" or "both" (racemic) are left open.
void open_relative_centres(RDKit::RWMol &molecule) {
    bool changed = false;
    for (const RDKit::StereoGroup &group : molecule.getStereoGroups()) {
        if (group.getGroupType() != RDKit::StereoGroupType::STEREO_ABSOLUTE) {
            for (RDKit::Atom *atom : group.getAtoms()) {
                atom->setChiralTag(RDKit::Atom::CHI_UNSPECIFIED);
                changed = true;
            }
        }
    }
    molecule.setStereoGroups({});
    if (changed) {
        RDKit::MolOps::assignStereochemistry(molecule, /*cleanIt=*/true, /*force=*/true);
    }
}

/// Drawing, title and bookkeeping are no part of the compound.
void strip_to_compound(RDKit::RWMol &molecule) {
    for (RDKit::Atom *atom : molecule.atoms()) {
        atom->setAtomMapNum(0);
    }
    for (RDKit::Bond *bond : molecule.bonds()) { // drawn as "either": as open as one not drawn
        bond->setBondDir(RDKit::Bond::NONE);
        if (bond->getStereo() == RDKit::Bond::STEREOANY) {
            bond->setStereo(RDKit::Bond::STEREONONE);
        }
    }
    molecule.clearConformers();
    RDKit::getSubstanceGroups(molecule).clear();
}

} // namespace

std::unique_ptr<RDKit::RWMol> molecule_of_mol_block(std::string_view block) {
    const auto refused = [&](std::string_view reason) { refuse(mol_block_origin(block), reason); };
    if (const std::string fault = fault_before_parsing_block(block); !fault.empty()) {
        refused(fault);
    }
    std::unique_ptr<RDKit::RWMol> molecule;
    try {
        molecule = parsed_block(block, /*sanitize=*/true);
    } catch (const RDKit::MolSanitizeException &) {
        refused(chemistry_fault(*parsed_block(block, /*sanitize=*/false)));
    } catch (const RDKit::FileParseException &error) {
        refused(error.what());
    } catch (const Invar::Invariant &) {
        refused("its lines contradict each other: one names an atom that is not there");
    }
    if (molecule == nullptr || molecule->getNumAtoms() == 0) {
        refused("it has no atoms");
    }
    if (const std::string fault = contents_fault(*molecule); !fault.empty()) {
        refused(fault);
    }
    if (has_repeating_units(*molecule)) {
        refused("it draws a polymer or a mixture");
    }
    open_relative_centres(*molecule);
    strip_to_compound(*molecule);
    return molecule;
}

} // namespace cospot::descriptors

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
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>
#include <system_error>
#include <vector>

namespace cospot::descriptors {

namespace {

/// 500 heavy atoms with all their hydrogens and bonds stay well below.
constexpr std::size_t longest_block = 500'000;
constexpr std::size_t counts_line = 3; // from 0

std::vector<std::string_view> lines_of(std::string_view text) {
    std::vector<std::string_view> lines;
    while (!text.empty()) {
        const std::size_t end = text.find('\n');
        std::string_view line = text.substr(0, end);
        if (!line.empty() && line.back() == '\r') {
            line.remove_suffix(1);
        }
        lines.push_back(line);
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    }
    return lines;
}

bool is_end(std::string_view line) {
    return trimmed(line) == "M  END";
}

/// The number in three columns of a V2000 line, if it is one.
std::optional<std::size_t> number_at(std::string_view line, std::size_t column) {
    if (column >= line.size()) {
        return std::nullopt;
    }
    const std::string_view text = trimmed(line.substr(column, 3));
    std::size_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    const bool whole = error == std::errc{} && end == text.data() + text.size();
    return whole ? std::optional(number) : std::nullopt;
}

/// A bond of a V2000 block to an atom that is not there, or empty. RDKit would say so in no words
/// and lose memory.
std::string fault_in_bonds(const std::vector<std::string_view> &lines) {
    const std::optional<std::size_t> atoms = number_at(lines[counts_line], 0);
    const std::optional<std::size_t> bonds = number_at(lines[counts_line], 3);
    if (!atoms || !bonds || lines[counts_line].find("V2000") == std::string_view::npos) {
        return {};
    }
    const std::size_t first = counts_line + 1 + *atoms;
    for (std::size_t at = first; at < std::min(lines.size(), first + *bonds); ++at) {
        for (const std::size_t column : {std::size_t{0}, std::size_t{3}}) {
            const std::optional<std::size_t> atom = number_at(lines[at], column);
            if (atom && (*atom == 0 || *atom > *atoms)) {
                return fmt::format("line {} names atom {} of {}", at + 1, *atom, *atoms);
            }
        }
    }
    return {};
}

/// Why the text is not worth parsing, or empty. Lines count from 1 in the block.
std::string fault_in_lines(std::string_view block) {
    if (block.size() > longest_block) {
        return fmt::format("it has {} characters, more than {}", block.size(), longest_block);
    }
    const std::vector<std::string_view> lines = lines_of(block);
    if (lines.size() <= counts_line) {
        return "it ends before line 4, the line with the counts of atoms and bonds";
    }
    const std::string_view counts = lines[counts_line];
    const bool of_known_version = counts.find("V2000") != std::string_view::npos ||
                                  counts.find("V3000") != std::string_view::npos;
    if (!of_known_version) {
        return "line 4 names neither V2000 nor V3000";
    }
    const auto end = std::find_if(lines.begin() + counts_line, lines.end(), is_end);
    if (end == lines.end()) {
        return "the line \"M  END\" is missing";
    }
    const auto blank = [](std::string_view line) { return trimmed(line).empty(); };
    if (const auto more = std::find_if_not(end + 1, lines.end(), blank); more != lines.end()) {
        return fmt::format("line {} stands behind \"M  END\"", more - lines.begin() + 1);
    }
    return fault_in_bonds(lines);
}

std::unique_ptr<RDKit::RWMol> parsed(std::string_view block, bool sanitize) {
    return std::unique_ptr<RDKit::RWMol>(
        RDKit::MolBlockToMol(std::string(block), sanitize, /*removeHs=*/sanitize));
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
    if (const std::string fault = fault_in_lines(block); !fault.empty()) {
        refused(fault);
    }
    std::unique_ptr<RDKit::RWMol> molecule;
    try {
        molecule = parsed(block, /*sanitize=*/true);
    } catch (const RDKit::MolSanitizeException &) {
        refused(chemistry_fault(*parsed(block, /*sanitize=*/false)));
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

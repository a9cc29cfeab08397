#include "descriptors/boiling_point_groups.h"

#include "descriptors/pattern_table.h"
#include "shared/number.h"

#include <GraphMol/GraphMol.h>
#include <GraphMol/SmilesParse/SmilesParse.h>
#include <GraphMol/Substruct/SubstructMatch.h>
#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace cospot::descriptors {

namespace {

std::string_view bond_mark(const RDKit::Bond &bond) {
    switch (bond.getBondType()) {
    case RDKit::Bond::DOUBLE:
        return "=";
    case RDKit::Bond::TRIPLE:
        return "#";
    default:
        return "";
    }
}

/// "atom 3 (N in a ring, bonded to C, C, =O)"
std::string in_words(const RDKit::Atom &atom) {
    const RDKit::ROMol &molecule = atom.getOwningMol();
    std::string words = fmt::format("atom {} ({}", atom.getIdx() + 1, atom.getSymbol());
    if (const unsigned hydrogens = atom.getTotalNumHs(/*includeNeighbors=*/true); hydrogens > 0) {
        words += fmt::format(" with {} H", hydrogens);
    }
    if (molecule.getRingInfo()->numAtomRings(atom.getIdx()) > 0) {
        words += " in a ring";
    }
    if (atom.getFormalCharge() != 0) {
        words += fmt::format(", charge {:+}", atom.getFormalCharge());
    }
    std::string_view before = ", bonded to ";
    for (const RDKit::Atom *neighbour : molecule.atomNeighbors(&atom)) {
        const auto *bond = molecule.getBondBetweenAtoms(atom.getIdx(), neighbour->getIdx());
        words += fmt::format("{}{}{}", before, bond_mark(*bond), neighbour->getSymbol());
        before = ", ";
    }
    return words + ")";
}

} // namespace

AtomCover::AtomCover(const RDKit::ROMol &molecule) : molecule_(&molecule) {
    for (const RDKit::Atom *atom : molecule.atoms()) {
        taken_.push_back(atom->getAtomicNum() == 1);
    }
}

bool AtomCover::admits(const Match &match) const {
    if (match.size() > 1) {
        return true;
    }
    const auto *atom = molecule_->getAtomWithIdx(static_cast<unsigned>(match.front().second));
    return atom->getFormalCharge() == 0 && atom->getNumRadicalElectrons() == 0;
}

bool AtomCover::touches(const Match &match) const {
    return std::any_of(match.begin(), match.end(), [&](const std::pair<int, int> &pair) {
        return taken_[static_cast<std::size_t>(pair.second)];
    });
}

void AtomCover::take(const Match &match) {
    for (const auto &[in_pattern, atom] : match) {
        taken_[static_cast<std::size_t>(atom)] = true;
    }
}

std::string AtomCover::missing() const {
    const auto left = std::find(taken_.begin(), taken_.end(), false);
    if (left == taken_.end()) {
        return {};
    }
    const auto index = static_cast<unsigned>(left - taken_.begin());
    return "no group for " + in_words(*molecule_->getAtomWithIdx(index));
}

std::shared_ptr<const RDKit::ROMol> boiling_point_pattern(const std::string &smarts) {
    std::shared_ptr<const RDKit::ROMol> pattern(RDKit::SmartsToMol(smarts));
    if (pattern == nullptr) {
        throw std::logic_error("an embedded table has a pattern that is no SMARTS: " + smarts);
    }
    return pattern;
}

std::vector<AtomCover::Match> boiling_point_matches(const RDKit::ROMol &molecule,
                                                    const RDKit::ROMol &pattern) {
    RDKit::SubstructMatchParameters parameters;
    parameters.maxMatches = 10'000; // more than 500 heavy atoms can show
    return RDKit::SubstructMatch(molecule, pattern, parameters);
}

std::vector<BoilingPointGroup> read_boiling_point_groups(std::string_view table) {
    std::vector<BoilingPointGroup> groups;
    for (const std::vector<std::string> &row : table_rows(table, 4)) {
        const double kelvin = number_from_text(row[2]).value();
        groups.push_back({boiling_point_pattern(row[1]), kelvin});
    }
    return groups;
}

BoilingPointGroupSum sum_boiling_point_groups(const RDKit::ROMol &molecule,
                                              const std::vector<BoilingPointGroup> &groups) {
    BoilingPointGroupSum sum;
    AtomCover cover(molecule);
    for (const BoilingPointGroup &group : groups) {
        for (const AtomCover::Match &match : boiling_point_matches(molecule, *group.pattern)) {
            if (cover.admits(match) && !cover.touches(match)) {
                cover.take(match);
                sum.kelvin += group.kelvin;
            }
        }
    }
    sum.missing = cover.missing();
    return sum;
}

} // namespace cospot::descriptors

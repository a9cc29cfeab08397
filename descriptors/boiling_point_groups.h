#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace RDKit {
class ROMol;
}

namespace cospot::descriptors {

/// The heavy atoms that some group takes. A group of one atom never takes a charged atom or a
/// radical: where a charge belongs to a group (nitro), its pattern spells it out.
class AtomCover {
public:
    using Match = std::vector<std::pair<int, int>>; ///< (atom of the pattern, atom), as in RDKit

    explicit AtomCover(const RDKit::ROMol &molecule);

    /// Whether a group may take the atoms of the match.
    [[nodiscard]] bool admits(const Match &match) const;
    /// Whether one of the atoms is taken already.
    [[nodiscard]] bool touches(const Match &match) const;
    void take(const Match &match);

    /// The first atom left over, in words: "no group for atom 3 (N in a ring, bonded to C, C, C)";
    /// atoms count from 1 as they stand in the SMILES. Empty where every heavy atom is taken.
    [[nodiscard]] std::string missing() const;

private:
    const RDKit::ROMol *molecule_;
    std::vector<bool> taken_;
};

/// A group of a group-contribution method.
struct BoilingPointGroup {
    std::shared_ptr<const RDKit::ROMol> pattern;
    double kelvin = 0.0; ///< contribution to the boiling point, K
};

/// What the groups of a molecule add up to.
struct BoilingPointGroupSum {
    double kelvin = 0.0;
    std::string missing; ///< what has no group, or empty; see AtomCover::missing
};

/// Reads a table of groups: group, SMARTS, K, source. Not to be shared between threads. Throws
/// std::logic_error for a row that is not so: the table is the project's own.
[[nodiscard]] std::vector<BoilingPointGroup> read_boiling_point_groups(std::string_view table);

/// Assigns every heavy atom to one group: groups claim their atoms in the order given, and a match
/// that needs a claimed atom does not count.
[[nodiscard]] BoilingPointGroupSum
sum_boiling_point_groups(const RDKit::ROMol &molecule,
                         const std::vector<BoilingPointGroup> &groups);

/// All matches of a pattern, each set of atoms once.
[[nodiscard]] std::vector<AtomCover::Match> boiling_point_matches(const RDKit::ROMol &molecule,
                                                                  const RDKit::ROMol &pattern);

/// The pattern of a SMARTS. Throws std::logic_error where it cannot be read.
[[nodiscard]] std::shared_ptr<const RDKit::ROMol> boiling_point_pattern(const std::string &smarts);

} // namespace cospot::descriptors

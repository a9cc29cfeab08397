#include "descriptors/mol_block_text.h"

#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <iterator>
#include <optional>
#include <set>
#include <sstream>
#include <system_error>
#include <utility>
#include <vector>

namespace cospot::descriptors {

namespace {

/// 500 heavy atoms with all their hydrogens and bonds stay well below.
constexpr std::size_t longest_block = 500'000;
constexpr std::size_t counts_line = 3; // from 0

using Lines = std::vector<std::string_view>;

Lines lines_of(std::string_view text) {
    Lines lines;
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

/// The number in some columns of a V2000 line, if it is one.
std::optional<std::size_t> number_at(std::string_view line, std::size_t column,
                                     std::size_t width = 3) {
    if (column >= line.size()) {
        return std::nullopt;
    }
    const std::string_view text = trimmed(line.substr(column, width));
    std::size_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    const bool whole = error == std::errc{} && end == text.data() + text.size();
    return whole ? std::optional(number) : std::nullopt;
}

/// How many atoms and bonds a V2000 block has.
struct Counts {
    std::size_t atoms = 0;
    std::size_t bonds = 0;

    [[nodiscard]] std::size_t first_bond_line() const { return counts_line + 1 + atoms; }
    [[nodiscard]] std::size_t first_property_line() const { return first_bond_line() + bonds; }
};

/// Whether the bond line asks for one of several orders, or for a bond in a ring or a chain.
bool leaves_bond_open(std::string_view line) {
    constexpr std::size_t order_column = 6;
    constexpr std::size_t topology_column = 15;
    const std::size_t order = number_at(line, order_column).value_or(0);
    const bool has_topology = line.size() >= topology_column + 3 &&
                              number_at(line, topology_column) != std::optional<std::size_t>(0);
    return (order >= 5 && order <= 8) || has_topology;
}

/// The bonds of a block; each may stand there once.
class KnownBonds {
public:
    /// False where the two atoms are bound already.
    bool add(const std::string &a, const std::string &b) {
        return bonds_.insert(std::minmax(a, b)).second;
    }

private:
    std::set<std::pair<std::string, std::string>> bonds_;
};

std::string fault_in_bonds(const Lines &lines, const Counts &counts) {
    if (lines.size() <= counts.first_property_line()) {
        return fmt::format("it has {} lines, too few for {} atoms and {} bonds", lines.size(),
                           counts.atoms, counts.bonds);
    }
    KnownBonds known;
    for (std::size_t at = counts.first_bond_line(); at < counts.first_property_line(); ++at) {
        const std::optional<std::size_t> from = number_at(lines[at], 0);
        const std::optional<std::size_t> to = number_at(lines[at], 3);
        if (!from || !to) {
            return fmt::format("line {} does not name the two atoms of a bond", at + 1);
        }
        for (const std::size_t atom : {*from, *to}) {
            if (atom == 0 || atom > counts.atoms) {
                return fmt::format("line {} names atom {} of {}", at + 1, atom, counts.atoms);
            }
        }
        if (*from == *to || !known.add(fmt::format("{}", *from), fmt::format("{}", *to))) {
            return fmt::format("line {} binds atoms that are bound already", at + 1);
        }
        if (leaves_bond_open(lines[at])) {
            return fmt::format("line {}: a bond is left open", at + 1);
        }
    }
    return {};
}

std::string fault_in_v2000(const Lines &lines) {
    const std::optional<std::size_t> atoms = number_at(lines[counts_line], 0);
    const std::optional<std::size_t> bonds = number_at(lines[counts_line], 3);
    if (!atoms || !bonds) {
        return "line 4 does not begin with the counts of atoms and bonds";
    }
    return fault_in_bonds(lines, {*atoms, *bonds});
}

std::vector<std::string> words_of(std::string_view text) {
    std::istringstream in{std::string(text)};
    return {std::istream_iterator<std::string>(in), {}};
}

/// Why a bond of a V3000 block (number, order, two atoms, then KEY=VALUE) cannot be read, or empty.
std::string fault_in_extended_bond(const std::vector<std::string> &words,
                                   const std::set<std::string> &atoms, KnownBonds &known) {
    constexpr std::size_t fixed = 4;
    if (words.size() < fixed || !atoms.contains(words[2]) || !atoms.contains(words[3])) {
        return "a bond does not name two of the atoms above";
    }
    if (words[2] == words[3] || !known.add(words[2], words[3])) {
        return "a bond binds atoms that are bound already";
    }
    const std::optional<std::size_t> order = number_at(words[1], 0);
    if (!order || (*order >= 5 && *order <= 8)) {
        return "a bond is left open";
    }
    for (std::size_t i = fixed; i < words.size(); ++i) {
        const std::size_t equals = words[i].find('=');
        if (equals != std::string::npos && words[i].substr(0, equals) == "ENDPTS") {
            break; // a list with blanks, and what stands behind it
        }
        if (equals == std::string::npos || !number_at(words[i], equals + 1, 9)) {
            return in_quotes(words[i]) + " behind a bond is no KEY=NUMBER";
        }
    }
    return {};
}

std::string fault_in_v3000(const Lines &lines) {
    constexpr std::string_view prefix = "M  V30 ";
    std::string section;
    std::set<std::string> atoms; // their numbers, as bonds write them
    KnownBonds known;
    for (std::size_t at = counts_line; at < lines.size(); ++at) {
        const auto words = words_of(lines[at].substr(std::min(prefix.size(), lines[at].size())));
        if (!lines[at].starts_with(prefix) || words.size() < 2) {
            continue;
        }
        if (words[0] == "BEGIN" || words[0] == "END") {
            section = words[0] == "BEGIN" ? words[1] : "";
        } else if (section == "ATOM") {
            atoms.insert(words[0]);
        } else if (section == "BOND") {
            if (const auto fault = fault_in_extended_bond(words, atoms, known); !fault.empty()) {
                return fmt::format("line {}: {}", at + 1, fault);
            }
        }
    }
    return {};
}

} // namespace

bool is_extended_block(std::string_view counts) {
    return counts.find("V3000") != std::string_view::npos;
}

std::string fault_before_parsing_block(std::string_view block) {
    if (block.size() > longest_block) {
        return fmt::format("it has {} characters, more than {}", block.size(), longest_block);
    }
    const Lines lines = lines_of(block); // messages count from 1 in the block
    if (lines.size() <= counts_line) {
        return "it ends before line 4, the line with the counts of atoms and bonds";
    }
    const std::string_view counts = lines[counts_line];
    if (counts.find("V2000") == std::string_view::npos && !is_extended_block(counts)) {
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
    return is_extended_block(counts) ? fault_in_v3000(lines) : fault_in_v2000(lines);
}

} // namespace cospot::descriptors

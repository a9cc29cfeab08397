#include "descriptors/smiles_text.h"

#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <vector>

namespace cospot::descriptors {

namespace {

/// Atoms that may stand without brackets, bonds, and other marks; brackets and digits not included.
bool may_stand_outside_brackets(std::string_view smiles, std::size_t at) {
    constexpr std::string_view one_letter = "BCNOPSFIbcnops=#$:-/\\.()<>~";
    const std::string_view two = smiles.substr(at, 2);
    return one_letter.find(smiles[at]) != std::string_view::npos || two == "Cl" || two == "Br" ||
           (at > 0 && (smiles.substr(at - 1, 2) == "Cl" || smiles.substr(at - 1, 2) == "Br"));
}

/// The number of a ring bond: one digit, or two after '%'. Moves `at` to its last character.
std::string ring_number(std::string_view smiles, std::size_t &at) {
    if (smiles[at] != '%') {
        return std::string(1, smiles[at]);
    }
    const std::string_view digits = smiles.substr(at + 1, 2);
    at += digits.size();
    return std::string(digits);
}

/// The first bracket, parenthesis or ring bond without its partner, or empty.
std::string fault_in_pairs(std::string_view smiles) {
    std::vector<std::size_t> open_parentheses;
    std::map<std::string, std::size_t> open_rings;
    for (std::size_t at = 0; at < smiles.size(); ++at) {
        const char c = smiles[at];
        if (c == '[') {
            const std::size_t end = smiles.find(']', at);
            if (end == std::string_view::npos) {
                return fmt::format("the bracket at character {} is never closed", at + 1);
            }
            at = end;
        } else if (c == ']') {
            return fmt::format("the bracket at character {} was never opened", at + 1);
        } else if (c == '(') {
            open_parentheses.push_back(at);
        } else if (c == ')' && open_parentheses.empty()) {
            return fmt::format("the parenthesis at character {} was never opened", at + 1);
        } else if (c == ')') {
            open_parentheses.pop_back();
        } else if (is_digit(c) || c == '%') {
            const std::size_t start = at;
            const std::string ring = ring_number(smiles, at);
            if (!open_rings.erase(ring)) {
                open_rings[ring] = start;
            }
        } else if (!may_stand_outside_brackets(smiles, at)) {
            return fmt::format("'{}' at character {} is no atom that may stand without brackets", c,
                               at + 1);
        }
    }
    if (!open_parentheses.empty()) {
        return fmt::format("the parenthesis at character {} is never closed",
                           open_parentheses.front() + 1);
    }
    if (!open_rings.empty()) {
        const auto &[ring, start] = *open_rings.begin();
        return fmt::format("the ring bond {} at character {} is never closed", ring, start + 1);
    }
    return {};
}

/// The largest number that may follow a character inside brackets: RDKit wraps larger ones round
/// without a word. At the start of a bracket stands the isotope.
int largest_behind(char before) {
    switch (before) {
    case '[':
        return 400; // the heaviest isotope known has less than 300
    case '+':
    case '-':
        return 15;
    case 'H':
        return 9;
    default:
        return 9999; // atom maps and classes of chirality
    }
}

/// A number inside brackets that no atom can have, or empty.
std::string fault_in_numbers(std::string_view smiles) {
    bool in_bracket = false;
    for (std::size_t at = 0; at < smiles.size(); ++at) {
        in_bracket = smiles[at] == '[' || (in_bracket && smiles[at] != ']');
        if (!in_bracket || !is_digit(smiles[at])) {
            continue;
        }
        const std::size_t start = at;
        while (at + 1 < smiles.size() && is_digit(smiles[at + 1])) {
            ++at;
        }
        const std::string digits(smiles.substr(start, at + 1 - start));
        if (digits.size() > 4 || std::stoi(digits) > largest_behind(smiles[start - 1])) {
            return fmt::format("no atom has the number {} at character {}", digits, start + 1);
        }
    }
    return {};
}

} // namespace

std::string fault_before_parsing(std::string_view smiles) {
    if (smiles.empty()) {
        return "nothing is there";
    }
    if (smiles.size() > longest_smiles) {
        return fmt::format("it has {} characters, more than {}", smiles.size(), longest_smiles);
    }
    const auto printable = [](char c) { return c > ' ' && c <= '~'; };
    const auto odd = std::find_if_not(smiles.begin(), smiles.end(), printable);
    if (odd != smiles.end()) {
        const auto position = odd - smiles.begin() + 1;
        const bool blank = *odd == ' ' || (*odd >= '\t' && *odd <= '\r');
        return fmt::format("{} at character {}", blank ? "white space" : "no SMILES character",
                           position);
    }
    if (const std::size_t star = smiles.find('*'); star != std::string_view::npos) {
        return fmt::format("* at character {} leaves the atom open", star + 1);
    }
    if (const std::size_t bar = smiles.find('|'); bar != std::string_view::npos) {
        return fmt::format("an extension begins at character {}", bar + 1);
    }
    return fault_in_numbers(smiles);
}

std::string syntax_fault(std::string_view smiles) {
    if (smiles.find('>') != std::string_view::npos) {
        return "a reaction, or bonds that are not understood";
    }
    const std::string fault = fault_in_pairs(smiles);
    return fault.empty() ? "the order of atoms and bonds is not that of SMILES" : fault;
}

} // namespace cospot::descriptors

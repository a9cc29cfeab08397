#include "descriptors/substructure.h"

#include "descriptors/molecule.h"
#include "descriptors/origin.h"
#include "shared/text.h"

#include <GraphMol/GraphMol.h>
#include <GraphMol/SmilesParse/SmilesParse.h>
#include <GraphMol/Substruct/SubstructMatch.h>
#include <fmt/format.h>

#include <algorithm>
#include <memory>

namespace cospot::descriptors {

namespace {

constexpr std::size_t longest_pattern = 2000;

/// Why the text is not worth parsing, or empty.
std::string fault_before_parsing_pattern(std::string_view smarts) {
    if (smarts.empty()) {
        return "nothing is there";
    }
    if (smarts.size() > longest_pattern) {
        return fmt::format("it has {} characters, more than {}", smarts.size(), longest_pattern);
    }
    const auto printable = [](char c) { return c > ' ' && c <= '~'; };
    const auto odd = std::find_if_not(smarts.begin(), smarts.end(), printable);
    if (odd != smarts.end()) {
        return fmt::format("no SMARTS character at character {}", odd - smarts.begin() + 1);
    }
    if (const std::size_t bar = smarts.find('|'); bar != std::string_view::npos) {
        return fmt::format("an extension begins at character {}", bar + 1);
    }
    if (smarts.find(">>") != std::string_view::npos) {
        return "a reaction";
    }
    return {};
}

std::unique_ptr<RDKit::RWMol> pattern_of(const Origin &origin, std::string_view smarts) {
    if (const std::string fault = fault_before_parsing_pattern(smarts); !fault.empty()) {
        refuse(origin, fault);
    }
    RDKit::SmartsParserParams parameters;
    parameters.allowCXSMILES = false;
    parameters.parseName = false;
    parameters.mergeHs = true;
    std::unique_ptr<RDKit::RWMol> pattern(RDKit::SmartsToMol(std::string(smarts), parameters));
    if (pattern == nullptr || pattern->getNumAtoms() == 0) {
        refuse(origin, "the order of atoms and bonds is not that of SMARTS");
    }
    return pattern;
}

bool holds(std::string_view smiles, const RDKit::ROMol &pattern) {
    RDKit::SubstructMatchParameters parameters;
    parameters.useChirality = true;
    parameters.maxMatches = 1;
    const auto molecule = molecule_of_smiles(smiles);
    return !RDKit::SubstructMatch(*molecule, pattern, parameters).empty();
}

} // namespace

std::vector<bool> substructure_matches(std::string_view smarts,
                                       const std::vector<std::string> &smiles) {
    const Origin origin{in_quotes(smarts), "a SMARTS pattern"};
    const auto pattern = guarded(origin, [&] { return pattern_of(origin, smarts); });
    std::vector<bool> result;
    result.reserve(smiles.size());
    for (const std::string &text : smiles) {
        result.push_back(guarded(smiles_origin(text), [&] { return holds(text, *pattern); }));
    }
    return result;
}

} // namespace cospot::descriptors

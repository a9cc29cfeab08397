#include "descriptors/pattern_table.h"

#include <GraphMol/GraphMol.h>
#include <GraphMol/SmilesParse/SmilesParse.h>
#include <GraphMol/Substruct/SubstructMatch.h>

#include <algorithm>
#include <stdexcept>

namespace cospot::descriptors {

namespace {

std::vector<std::string> fields_of(std::string_view line) {
    std::vector<std::string> fields;
    while (true) {
        const std::size_t tab = line.find('\t');
        fields.emplace_back(line.substr(0, tab));
        if (tab == std::string_view::npos) {
            return fields;
        }
        line.remove_prefix(tab + 1);
    }
}

} // namespace

std::vector<std::vector<std::string>> table_rows(std::string_view text, std::size_t fields) {
    std::vector<std::vector<std::string>> rows;
    bool in_header = true;
    while (!text.empty()) {
        const std::string_view line = text.substr(0, text.find('\n'));
        text.remove_prefix(std::min(text.size(), line.size() + 1));
        if (line.empty() || line.front() == '#') {
            continue;
        }
        if (in_header) {
            in_header = false;
            continue;
        }
        rows.push_back(fields_of(line));
        if (rows.back().size() != fields) {
            throw std::logic_error("an embedded table has a row of another width: " +
                                   std::string(line));
        }
    }
    return rows;
}

Elements elements_of(const RDKit::ROMol &molecule) {
    Elements elements;
    for (const RDKit::Atom *atom : molecule.atoms()) {
        elements.set(static_cast<std::size_t>(atom->getAtomicNum()));
    }
    return elements;
}

Pattern::Pattern(const std::string &smarts) : query_(RDKit::SmartsToMol(smarts)) {
    if (query_ == nullptr) {
        throw std::logic_error("an embedded table has a pattern that is no SMARTS: " + smarts);
    }
    required_ = elements_of(*query_).reset(0); // 0: a choice of elements, or any
}

Pattern::Pattern(Pattern &&other) noexcept = default;
Pattern &Pattern::operator=(Pattern &&other) noexcept = default;
Pattern::~Pattern() = default;

std::vector<std::vector<unsigned>> Pattern::matches(const RDKit::ROMol &molecule,
                                                    const Elements &present) const {
    std::vector<std::vector<unsigned>> result;
    if ((required_ & ~present).any()) {
        return result;
    }
    RDKit::SubstructMatchParameters parameters;
    parameters.maxMatches = 10'000; // more than 500 heavy atoms can show
    for (const auto &match : RDKit::SubstructMatch(molecule, *query_, parameters)) {
        std::vector<unsigned> &atoms = result.emplace_back();
        for (const auto &[in_pattern, in_molecule] : match) {
            atoms.push_back(static_cast<unsigned>(in_molecule));
        }
    }
    return result;
}

} // namespace cospot::descriptors

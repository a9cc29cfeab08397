#include "descriptors/formula.h"

#include <GraphMol/GraphMol.h>
#include <GraphMol/MolOps.h>
#include <fmt/format.h>

#include <map>

namespace cospot::descriptors {

namespace {

std::string term(const std::string &symbol, unsigned count) {
    return count == 1 ? symbol : fmt::format("{}{}", symbol, count);
}

std::string charge_term(int charge) {
    if (charge == 0) {
        return {};
    }
    const char *sign = charge > 0 ? "+" : "-";
    return std::abs(charge) == 1 ? sign : fmt::format("{}{}", sign, std::abs(charge));
}

} // namespace

std::string hill_formula(const RDKit::ROMol &molecule) {
    std::map<std::string, unsigned> counts;
    for (const RDKit::Atom *atom : molecule.atoms()) {
        ++counts[atom->getSymbol()];
        if (const unsigned hydrogens = atom->getTotalNumHs(); hydrogens > 0) {
            counts["H"] += hydrogens;
        }
    }
    std::string formula;
    if (counts.count("C") > 0) {
        for (const char *first : {"C", "H"}) {
            if (const auto found = counts.find(first); found != counts.end()) {
                formula += term(found->first, found->second);
                counts.erase(found);
            }
        }
    }
    for (const auto &[symbol, count] : counts) {
        formula += term(symbol, count);
    }
    return formula + charge_term(RDKit::MolOps::getFormalCharge(molecule));
}

} // namespace cospot::descriptors

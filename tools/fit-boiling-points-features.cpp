// Reads lines of SMILES; writes per line, tab-separated: the first block of the InChIKey (the same
// for stereoisomers), the number of heavy atoms, Joback's and Stein and Brown's value (or nothing),
// the share of crowded atoms, and the model's features, or, for a structure that the model is not
// made for, the reason alone.
#include "descriptors/boiling_point_features.h"
#include "descriptors/boiling_point_joback.h"
#include "descriptors/boiling_point_stein_brown.h"
#include "descriptors/molecule.h"
#include "descriptors/structure.h"
#include "shared/error.h"

#include <GraphMol/GraphMol.h>
#include <fmt/format.h>

#include <iostream>
#include <string>

namespace {

namespace cd = cospot::descriptors;

std::string text(const cd::BoilingPoint &point) {
    return point.kelvin ? fmt::format("{:.3f}", *point.kelvin) : "";
}

/// By the formula in Hill order, which puts carbon first.
bool has_carbon(const std::string &formula) {
    return formula[0] == 'C' && (formula.size() == 1 || formula[1] < 'a');
}

std::string row(const std::string &smiles) {
    const cd::Structure structure = cd::read_smiles(smiles);
    if (structure.smiles.find('.') != std::string::npos) {
        return "several fragments";
    }
    if (!has_carbon(structure.formula)) {
        return "no carbon";
    }
    const auto molecule = cd::molecule_of_smiles(smiles);
    const cd::BoilingPointFeatures features = cd::boiling_point_features(*molecule);
    if (!features.missing.empty()) {
        return features.missing;
    }
    std::string line =
        fmt::format("{}\t{}\t{}\t{}\t{:.12g}", structure.inchikey.substr(0, 14),
                    molecule->getNumHeavyAtoms(), text(cd::joback_boiling_point(*molecule)),
                    text(cd::stein_brown_boiling_point(*molecule)), features.crowded);
    for (const double value : features.values) {
        line += fmt::format("\t{:.12g}", value);
    }
    return line;
}

} // namespace

int main() {
    std::cout << "inchikey\theavy_atoms\tjoback\tstein_brown\tcrowded";
    for (const std::string &name : cd::boiling_point_feature_names()) {
        std::cout << '\t' << name;
    }
    std::cout << '\n';
    for (std::string smiles; std::getline(std::cin, smiles);) {
        try {
            std::cout << row(smiles) << '\n';
        } catch (const cospot::InputError &error) {
            std::cout << error.found() << '\n';
        }
    }
}

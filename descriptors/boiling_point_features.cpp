#include "descriptors/boiling_point_features.h"

#include "descriptors/boiling_point_groups.h"
#include "descriptors/boiling_point_stein_brown.h"
#include "descriptors/boiling_point_tables.h"
#include "descriptors/molecule.h"
#include "descriptors/pattern_table.h"

#include <GraphMol/Descriptors/Crippen.h>
#include <GraphMol/Descriptors/MolDescriptors.h>
#include <GraphMol/GraphMol.h>

#include <array>
#include <cmath>
#include <memory>

namespace cospot::descriptors {

namespace {

namespace rd = RDKit::Descriptors;

struct FeatureGroup {
    std::string name;
    std::shared_ptr<const RDKit::ROMol> pattern;
    bool is_context = false; ///< counts atoms that other groups take already
};

struct NamedFeature {
    const char *name;
    double value;
};

std::vector<FeatureGroup> read_feature_groups() {
    std::vector<FeatureGroup> groups;
    for (const std::vector<std::string> &row : table_rows(kBoilingPointFeatures, 3)) {
        groups.push_back({row[0], boiling_point_pattern(row[1]), row[2] == "context"});
    }
    return groups;
}

double molar_refractivity(const RDKit::ROMol &molecule) {
    double logp = 0.0;
    double refractivity = 0.0;
    rd::calcCrippenDescriptors(molecule, logp, refractivity);
    return refractivity;
}

/// The one list of descriptors, for names and values alike.
auto descriptors_of(const RDKit::ROMol &molecule) {
    thread_local const auto joback_groups = read_boiling_point_groups(kJobackGroups);
    thread_local const auto stein_brown_groups = read_boiling_point_groups(kSteinBrownGroups);
    const double joback = 198.2 + sum_boiling_point_groups(molecule, joback_groups).kelvin;
    const double stein_brown =
        198.2 + sum_boiling_point_groups(molecule, stein_brown_groups).kelvin;
    const double heavy_atoms = molecule.getNumHeavyAtoms();
    const double tpsa = rd::calcTPSA(molecule);
    return std::to_array<NamedFeature>({
        {"sqrt_heavy_atoms", std::sqrt(heavy_atoms)},
        {"log_heavy_atoms", std::log(heavy_atoms)},
        {"molar_refractivity", molar_refractivity(molecule)},
        {"labute_surface", rd::calcLabuteASA(molecule)},
        {"tpsa", tpsa},
        {"sqrt_tpsa", std::sqrt(tpsa)},
        {"average_mass", rd::calcAMW(molecule)},
        {"chi1v", rd::calcChi1v(molecule)},
        {"chi2v", rd::calcChi2v(molecule)},
        {"chi3v", rd::calcChi3v(molecule)},
        {"hall_kier_alpha", rd::calcHallKierAlpha(molecule)},
        {"rotatable_bonds", static_cast<double>(rd::calcNumRotatableBonds(molecule))},
        {"joback_sum", joback},
        {"sqrt_joback_sum", std::sqrt(joback)},
        {"stein_brown_sum", stein_brown},
        {"stein_brown_corrected", stein_brown_corrected(stein_brown)},
    });
}

bool has_triple_bond(const RDKit::Atom &atom) {
    for (const RDKit::Bond *bond : atom.getOwningMol().atomBonds(&atom)) {
        if (bond->getBondType() == RDKit::Bond::TRIPLE) {
            return true;
        }
    }
    return false;
}

/// Whether polar places meet at the atom.
bool is_crowded(const RDKit::Atom &atom) {
    const auto is_hetero = [](const RDKit::Atom &one) { return one.getAtomicNum() != 6; };
    int polar = is_hetero(atom) ? 1 : 0;
    for (const RDKit::Atom *neighbour : atom.getOwningMol().atomNeighbors(&atom)) {
        if (neighbour->getAtomicNum() != 1 &&
            (is_hetero(*neighbour) || has_triple_bond(*neighbour))) {
            ++polar;
        }
    }
    return polar >= 2;
}

double crowded_share(const RDKit::ROMol &molecule) {
    int heavy = 0;
    int crowded = 0;
    for (const RDKit::Atom *atom : molecule.atoms()) {
        if (atom->getAtomicNum() != 1) {
            ++heavy;
            crowded += is_crowded(*atom) ? 1 : 0;
        }
    }
    return heavy > 0 ? static_cast<double>(crowded) / heavy : 0.0;
}

} // namespace

BoilingPointFeatures boiling_point_features(const RDKit::ROMol &molecule) {
    thread_local const auto groups = read_feature_groups();
    BoilingPointFeatures features;
    for (const NamedFeature &descriptor : descriptors_of(molecule)) {
        features.values.push_back(descriptor.value);
    }
    AtomCover cover(molecule);
    std::vector<double> counts;
    for (const FeatureGroup &group : groups) {
        const auto matches = boiling_point_matches(molecule, *group.pattern);
        for (const AtomCover::Match &match : matches) {
            if (!group.is_context && cover.admits(match)) {
                cover.take(match);
            }
        }
        counts.push_back(static_cast<double>(matches.size()));
    }
    features.missing = cover.missing();
    features.crowded = crowded_share(molecule);
    features.values.insert(features.values.end(), counts.begin(), counts.end());
    const double size = std::sqrt(static_cast<double>(molecule.getNumHeavyAtoms()));
    const std::vector<double> plain = features.values;
    for (const double value : plain) {
        features.values.push_back(value / size);
    }
    for (const double count : counts) {
        features.values.push_back(count > 0.0 ? 1.0 : 0.0);
    }
    return features;
}

std::vector<std::string> boiling_point_feature_names() {
    std::vector<std::string> names;
    for (const NamedFeature &descriptor : descriptors_of(*molecule_of_smiles("C"))) {
        names.emplace_back(descriptor.name);
    }
    std::vector<std::string> presence;
    for (const FeatureGroup &group : read_feature_groups()) {
        names.push_back(group.name);
        presence.push_back("any " + group.name);
    }
    const std::vector<std::string> plain = names;
    for (const std::string &name : plain) {
        names.push_back(name + " by size");
    }
    names.insert(names.end(), presence.begin(), presence.end());
    return names;
}

} // namespace cospot::descriptors

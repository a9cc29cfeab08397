#include "descriptors/retention_features.h"

#include "descriptors/descriptors.h"
#include "descriptors/molecule.h"

#include <GraphMol/Descriptors/MolSurf.h>
#include <GraphMol/Fingerprints/MorganFingerprints.h>
#include <GraphMol/GraphMol.h>
#include <GraphMol/PartialCharges/GasteigerCharges.h>
#include <RDGeneral/versions.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>

namespace cospot::descriptors {

namespace {

constexpr unsigned kRadius_bonds = 2;
constexpr const char *kVersion = "1"; ///< of what `retention_features` and `describe` tell

void append_finite(std::vector<double> &to, const std::vector<double> &values) {
    for (const double value : values) {
        to.push_back(std::isfinite(value) ? value : 0.0);
    }
}

/// Largest and smallest partial charge, and the sums of the positive and of the negative ones.
std::vector<double> charges(RDKit::ROMol &molecule) {
    RDKit::computeGasteigerCharges(molecule);
    double largest = -1.0;
    double smallest = 1.0;
    double positive = 0.0;
    double negative = 0.0;
    for (const RDKit::Atom *atom : molecule.atoms()) {
        const auto charge = atom->getProp<double>("_GasteigerCharge");
        if (std::isfinite(charge)) { // metals have none
            largest = std::max(largest, charge);
            smallest = std::min(smallest, charge);
            (charge > 0.0 ? positive : negative) += charge;
        }
    }
    return {largest, smallest, positive, negative};
}

std::vector<std::pair<std::uint32_t, std::uint16_t>> environments(const RDKit::ROMol &molecule) {
    std::vector<std::uint32_t> features(molecule.getNumAtoms());
    RDKit::MorganFingerprints::getFeatureInvariants(molecule, features);
    const std::unique_ptr<RDKit::SparseIntVect<std::uint32_t>> counts(
        RDKit::MorganFingerprints::getFingerprint(molecule, kRadius_bonds, &features));
    std::vector<std::pair<std::uint32_t, std::uint16_t>> result;
    for (const auto &[environment, count] : counts->getNonzeroElements()) {
        constexpr int most = std::numeric_limits<std::uint16_t>::max();
        result.emplace_back(environment, static_cast<std::uint16_t>(std::min(count, most)));
    }
    return result;
}

} // namespace

RetentionFeatures retention_features(std::string_view smiles) {
    RetentionFeatures features;
    features.descriptors = as_vector(describe(smiles));
    const auto molecule = molecule_of_smiles(smiles);
    append_finite(features.descriptors, RDKit::Descriptors::calcSlogP_VSA(*molecule));
    append_finite(features.descriptors, RDKit::Descriptors::calcSMR_VSA(*molecule));
    append_finite(features.descriptors, RDKit::Descriptors::calcPEOE_VSA(*molecule));
    append_finite(features.descriptors, charges(*molecule));
    features.environments = environments(*molecule);
    return features;
}

std::string retention_features_version() {
    return std::string(kVersion) + ", RDKit " + RDKit::rdkitVersion;
}

} // namespace cospot::descriptors

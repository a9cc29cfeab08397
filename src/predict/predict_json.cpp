#include "predict/predict_json.h"

#include "document/caution.h"
#include "model/matcher/basis_text.h"

namespace cospot {

namespace {

Json boiling_json(const descriptors::BoilingPoint &point) {
    Json json;
    json["kelvin"] = point.kelvin ? Json(*point.kelvin) : Json(nullptr);
    if (point.standard_error_kelvin) {
        json["standard_error_kelvin"] = *point.standard_error_kelvin;
    }
    if (!point.missing.empty()) {
        json["missing"] = point.missing;
    }
    return json;
}

Json descriptors_json(const descriptors::Descriptors &d) {
    return {{"crippen_logp", d.crippen_logp},
            {"crippen_molar_refractivity", d.crippen_molar_refractivity},
            {"tpsa", d.tpsa},
            {"labute_surface", d.labute_surface},
            {"hydrogen_bond_donors", d.hydrogen_bond_donors},
            {"hydrogen_bond_acceptors", d.hydrogen_bond_acceptors},
            {"rotatable_bonds", d.rotatable_bonds},
            {"rings", d.rings},
            {"aromatic_rings", d.aromatic_rings},
            {"fraction_sp3", d.fraction_sp3},
            {"formal_charge", d.formal_charge}};
}

Json retention_json(const ExpectedRetention &expected) {
    Json json{{"system", expected.system}, {"quantity", to_text(expected.quantity)}};
    if (expected.prediction) {
        json["basis"] = to_text(expected.basis);
        json["expected"] = expected.expected;
        json["low"] = expected.low;
        json["high"] = expected.high;
        json["coverage"] = prediction::kIntervalCoverage;
    } else {
        json["refused"] = expected.refusal;
    }
    json[expected.basis == matcher::Basis::measured ? "runs" : "compounds"] = expected.compounds;
    return json;
}

} // namespace

Json predict_json(const CompoundProfile &profile) {
    Json groups = Json::object();
    for (const auto &[name, count] : profile.groups) {
        groups[name] = count;
    }
    Json retention = Json::array();
    for (const ExpectedRetention &expected : profile.retention) {
        retention.push_back(retention_json(expected));
    }
    return {{"compound", profile.compound.name},
            {"smiles", profile.structure.smiles},
            {"inchikey", profile.structure.inchikey},
            {"formula", profile.structure.formula},
            {"average_mass", profile.structure.average_mass},
            {"monoisotopic_mass", profile.structure.monoisotopic_mass},
            {"descriptors", descriptors_json(profile.descriptors)},
            {"groups", groups},
            {"boiling_point",
             {{"model", boiling_json(profile.boiling.model)},
              {"joback", boiling_json(profile.boiling.joback)},
              {"stein_brown", boiling_json(profile.boiling.stein_brown)}}},
            {"silica_adsorption",
             {{"energy", profile.adsorption.energy},
              {"strongest_group", profile.adsorption.strongest_group},
              {"heteroatoms_left_out", profile.adsorption.heteroatoms_left_out}}},
            {"retention", retention},
            {"caution", kRetentionIsNoProof}};
}

} // namespace cospot

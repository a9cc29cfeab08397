#include "output/column_json.h"

#include "output/basis_text.h"
#include "output/caution.h"
#include "output/column_words.h"

namespace cospot {

namespace {

Json text_or_null(const std::string &text) {
    return text.empty() ? Json(nullptr) : Json(text);
}

Json compound_json(const ColumnResult &result, std::size_t index) {
    const fractions::PlateCompound &compound = result.plan.compounds[index];
    const fractions::PlannedBand &planned = result.plan.bands[index];
    Json json{{"record", "compound"},
              {"compound", compound.name},
              {"role", to_text(compound.role)},
              {"rf", compound.rf}};
    const auto expected = result.expected.find(compound.name);
    const bool is_expected = expected != result.expected.end();
    json["basis"] = is_expected ? Json(to_text(expected->second.basis)) : Json(nullptr);
    json["rf_low"] = is_expected ? Json(expected->second.low) : Json(nullptr);
    json["rf_high"] = is_expected ? Json(expected->second.high) : Json(nullptr);
    json["k"] = planned.column_volumes ? Json(*planned.column_volumes - 1.0) : Json(nullptr);
    json["column_volumes"] = or_null(planned.column_volumes);
    json["volume_mL"] = planned.band ? Json(planned.band->volume_ml) : Json(nullptr);
    json["sigma_mL"] = planned.band ? Json(planned.band->sigma_ml) : Json(nullptr);
    json["band_cv"] = nullptr;
    json["band_sigma_cv"] = nullptr;
    if (const auto band = fractions::band_in_column_volumes(result.plan, index)) {
        json["band_cv"] = band->volume_ml;
        json["band_sigma_cv"] = band->sigma_ml;
    }
    json["first_fraction"] = or_null(planned.first_fraction);
    json["last_fraction"] = or_null(planned.last_fraction);
    json["amount_mg"] = or_null(compound.amount_mg);
    return json;
}

Json advice_json(const fractions::ColumnPlan &plan) {
    if (!plan.advice) {
        return nullptr;
    }
    return {{"diameter_mm", plan.advice->column.diameter_mm},
            {"eluent_mL", plan.advice->column.eluent_ml},
            {"load_mg", plan.advice->column.load_mg},
            {"fraction_mL", plan.advice->column.fraction_ml},
            {"place", to_text(plan.advice->place)},
            {"portions", plan.advice->portions},
            {"source", kFlashTableSource}};
}

Json neighbours_json(const fractions::ColumnPlan &plan) {
    Json neighbours = Json::array();
    for (const fractions::Neighbours &pair : plan.neighbours) {
        neighbours.push_back({{"first", plan.compounds[pair.first].name},
                              {"second", plan.compounds[pair.second].name},
                              {"rf_difference", pair.rf_difference},
                              {"column_volumes", or_null(pair.column_volumes)},
                              {"resolution", or_null(pair.resolution)}});
    }
    return neighbours;
}

Json eluent_json(const ColumnResult &result) {
    Json mixtures = Json::array();
    for (const MixtureExpectation &mixture : result.eluents.mixtures) {
        mixtures.push_back({{"mobile_phase", mixture.mobile_phase},
                            {"strong_fraction", mixture.strong_fraction},
                            {"rf", mixture.expected.expected},
                            {"low", mixture.expected.low},
                            {"high", mixture.expected.high},
                            {"basis", to_text(mixture.expected.basis)}});
    }
    Json between = nullptr;
    if (result.eluents.between) {
        const double fraction = result.eluents.between->strong_fraction;
        between = {{"mobile_phase", mixture_text(result.eluents, fraction)},
                   {"strong_fraction", fraction},
                   {"rf", kWantedRf},
                   {"lower", result.eluents.between->lower},
                   {"upper", result.eluents.between->upper}};
    }
    return {{"mobile_phase", text_or_null(result.mobile_phase)},
            {"change", result.change ? Json(to_text(*result.change)) : Json(nullptr)},
            {"text", change_text(result)},
            {"strong_solvent", text_or_null(result.strong_solvent)},
            {"wanted_low", kLowestWantedRf},
            {"wanted_high", kHighestWantedRf},
            {"mixtures", std::move(mixtures)},
            {"between", std::move(between)}};
}

Json warnings_json(const ColumnResult &result) {
    Json warnings = Json::array();
    for (const fractions::PlanFinding &finding : result.plan.findings) {
        Json compounds = Json::array();
        for (const std::size_t compound : finding.compounds) {
            compounds.push_back(result.plan.compounds[compound].name);
        }
        warnings.push_back({{"kind", to_text(finding.warning)},
                            {"compounds", std::move(compounds)},
                            {"text", finding_text(finding, result)}});
    }
    return warnings;
}

Json column_object(const ColumnResult &result) {
    const fractions::ColumnPlan &plan = result.plan;
    std::vector<std::string> notes = result.notes;
    const std::vector<std::string> assumptions = plan_assumptions(result);
    notes.insert(notes.end(), assumptions.begin(), assumptions.end());
    return {{"record", "column"},
            {"target", plan.target ? Json(plan.compounds[*plan.target].name) : Json(nullptr)},
            {"difference", or_null(plan.difference)},
            {"load_mg", or_null(plan.load_mg)},
            {"diameter_mm", or_null(plan.diameter_mm)},
            {"bed_mm", result.settings.bed_mm},
            {"silica_g", or_null(plan.silica_g)},
            {"column_volume_mL", or_null(plan.hold_up_ml)},
            {"plate_number", plan.plate_number},
            {"fraction_mL", or_null(plan.fraction_ml)},
            {"load_mL", result.settings.load_ml},
            {"forerun_mL", result.settings.forerun_ml},
            {"advice", advice_json(plan)},
            {"neighbours", neighbours_json(plan)},
            {"eluent", eluent_json(result)},
            {"warnings", warnings_json(result)},
            {"needs_attention", result.needs_attention()},
            {"notes", notes},
            {"cautions", kColumnCautions}};
}

} // namespace

Json column_json(const ColumnResult &result) {
    Json objects = Json::array();
    for (std::size_t i = 0; i < result.plan.compounds.size(); ++i) {
        objects.push_back(compound_json(result, i));
    }
    objects.push_back(column_object(result));
    return objects;
}

} // namespace cospot

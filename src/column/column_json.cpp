#include "column/column_json.h"

#include "column/column_model.h"
#include "column/column_words.h"
#include "document/caution.h"
#include "model/matcher/basis_text.h"

namespace cospot {

namespace {

Json text_or_null(const std::string &text) {
    return text.empty() ? Json(nullptr) : Json(text);
}

/// The expected band with its intervals; null where the column's size is not known.
void add_interval(const ColumnResult &result, std::size_t index, Json &json) {
    const fractions::PlannedBand &planned = result.plan.bands[index];
    const auto add = [&](const char *field, auto value) {
        json[field] = planned.expected ? Json(value(*planned.expected)) : Json(nullptr);
    };
    using Band = fractions::ExpectedBand;
    add("volume_mL", [](const Band &band) { return band.band.volume_ml; });
    add("sigma_mL", [](const Band &band) { return band.band.sigma_ml; });
    add("start_mL", [](const Band &band) { return band.start_ml; });
    add("end_mL", [](const Band &band) { return band.end_ml; });
    add("middle_mL", [](const Band &band) { return band.middle_ml(); });
    add("middle_low_mL", [](const Band &band) { return band.middle.low_ml; });
    add("middle_high_mL", [](const Band &band) { return band.middle.high_ml; });
    add("whole_low_mL", [](const Band &band) { return band.whole.low_ml; });
    add("whole_high_mL", [](const Band &band) { return band.whole.high_ml; });
    add("middle_factor", [](const Band &band) { return band.middle.factor(); });
    json["first_fraction_95"] = or_null(planned.first_in_95);
    json["last_fraction_95"] = or_null(planned.last_in_95);
    json["volume_basis"] = text_or_null(band_basis(result, index));
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
    json["volume_mL"] = nullptr;
    json["sigma_mL"] = nullptr;
    json["band_cv"] = nullptr;
    json["band_sigma_cv"] = nullptr;
    if (const auto band = fractions::band_in_column_volumes(result.plan, index)) {
        json["band_cv"] = band->volume_ml;
        json["band_sigma_cv"] = band->sigma_ml;
    }
    json["first_fraction"] = or_null(planned.first_fraction);
    json["last_fraction"] = or_null(planned.last_fraction);
    add_interval(result, index, json);
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
            {"doubts", result.eluent_doubts},
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

Json own_column_json(const ColumnResult &result) {
    if (!result.settings.own) {
        return nullptr;
    }
    const fractions::OwnColumn &own = *result.settings.own;
    return {{"name", own.name},
            {"runs", fractions::count_runs(own.seen)},
            {"bands", own.seen.size()},
            {"held_out",
             {{"bands", result.held_out.bands},
              {"middle_within", result.held_out.middles},
              {"whole_within", result.held_out.wholes}}}};
}

/// What one run would teach: factors to both sides of the middle.
Json teaching_json(const ColumnResult &result) {
    if (!result.plan.teaching) {
        return nullptr;
    }
    const fractions::Teaching &teaching = *result.plan.teaching;
    return {{"factor_now", teaching.now},
            {"factor_other_compound", teaching.other},
            {"factor_same_compound", teaching.same},
            {"text", teaching_sentence(result)}};
}

Json model_json(const ColumnResult &result) {
    Json rows = Json::array();
    for (const BandQuantity &row : band_model(result)) {
        rows.push_back({{"quantity", row.quantity},
                        {"unit", row.unit},
                        {"value", row.value},
                        {"low", or_null(row.low)},
                        {"high", or_null(row.high)},
                        {"origin", row.origin},
                        {"reason", row.reason}});
    }
    return rows;
}

Json column_object(const ColumnResult &result) {
    const fractions::ColumnPlan &plan = result.plan;
    std::vector<std::string> notes = library_rf_sentences(result);
    notes.insert(notes.end(), result.notes.begin(), result.notes.end());
    const std::vector<std::string> assumptions = plan_assumptions(result);
    notes.insert(notes.end(), assumptions.begin(), assumptions.end());
    return {{"record", "column"},
            {"target", plan.target ? Json(plan.compounds[*plan.target].name) : Json(nullptr)},
            {"difference", or_null(plan.difference)},
            {"load_mg", or_null(plan.load_mg)},
            {"diameter_mm", or_null(plan.diameter_mm)},
            {"bed_mm", or_null(plan.bed_mm)},
            {"silica_g", or_null(plan.silica_g)},
            {"column_volume_mL", or_null(plan.hold_up_ml)},
            {"outside_mL", plan.column ? Json(plan.column->outside_ml()) : Json(nullptr)},
            {"hold_up_mL", plan.column ? Json(plan.column->hold_up_ml()) : Json(nullptr)},
            {"hold_ratio", plan.column ? Json(plan.column->hold_ratio()) : Json(nullptr)},
            {"interval_percent", fractions::kIntervalPercent},
            {"own_column", own_column_json(result)},
            {"one_run", teaching_json(result)},
            {"band_model", model_json(result)},
            {"interval_notes", interval_sentences(result)},
            {"plate_number", plan.plate_number},
            {"eluent_mL", or_null(plan.eluent_ml)},
            {"fraction_mL", or_null(plan.fraction_ml)},
            {"load_mL", result.settings.load_ml},
            {"forerun_mL", result.settings.discarded_ml},
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

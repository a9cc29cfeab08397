#include "list/library_json.h"

namespace cospot {

namespace {

Json change_json(const library::Change &change) {
    return Json{{"who", change.who}, {"at", change.at_utc}, {"detail", change.detail}};
}

void set_state(Json &json, const library::MeasurementRecord &record) {
    json["state"] = library::to_text(record.state);
    json["superseded_by"] = or_null(record.superseded_by);
    json["learned"] = change_json(record.learned);
    json["withdrawn"] = record.withdrawn ? change_json(*record.withdrawn) : Json(nullptr);
}

} // namespace

Json library_json(const library::Compound &compound, const library::Counts &counts,
                  const std::optional<library::Description> &description) {
    Json json{{"compound", compound.name},
              {"inchikey", compound.inchikey},
              {"smiles", compound.smiles},
              {"cas", compound.cas},
              {"formula", compound.formula},
              {"average_mass", compound.average_mass},
              {"monoisotopic_mass", compound.monoisotopic_mass},
              {"retired", compound.retired},
              {"values", counts.values},
              {"systems", counts.others}};
    if (description) {
        json["crippen_logp"] = description->crippen_logp;
        json["crippen_molar_refractivity"] = description->molar_refractivity;
        json["tpsa"] = description->polar_surface;
        json["labute_surface"] = description->labute_surface;
        json["hydrogen_bond_donors"] = description->hydrogen_bond_donors;
        json["hydrogen_bond_acceptors"] = description->hydrogen_bond_acceptors;
        json["groups"] = description->groups;
    }
    return json;
}

Json library_json(const library::System &system, const library::Counts &counts) {
    Json json{{"system", system.name},
              {"technique", to_text(system.technique)},
              {"stationary_phase", system.stationary_phase},
              {"mobile_phase", system.mobile_phase},
              {"programme", system.programme},
              {"scale", system.scale},
              {"reference", system.reference},
              {"note", system.note},
              {"retired", system.retired}};
    json["column_length_m"] = or_null(system.column_length_m);
    json["column_diameter_mm"] = or_null(system.column_diameter_mm);
    json["film_um"] = or_null(system.film_um);
    json["particle_um"] = or_null(system.particle_um);
    json["values"] = counts.values;
    json["compounds"] = counts.others;
    return json;
}

Json library_json(const library::RememberedSheet &sheet) {
    Json columns = Json::array();
    for (const ColumnAlias &alias : sheet.columns) {
        columns.push_back({{"column", alias.column}, {"header", alias.header}});
    }
    return {{"sheet", sheet.name},
            {"columns", std::move(columns)},
            {"who", sheet.change.who},
            {"at", sheet.change.at_utc}};
}

Json library_json(const library::PackedColumn &column, std::size_t bands) {
    return {{"column", column.name},
            {"silica_g", or_null(column.silica_g)},
            {"diameter_mm", or_null(column.diameter_mm)},
            {"bed_mm", or_null(column.bed_mm)},
            {"column_volume_mL", or_null(column.hold_up_ml)},
            {"outside_mL", or_null(column.outside_ml)},
            {"bands", bands}};
}

Json library_json(const library::ColumnBand &band) {
    return {{"compound", band.compound}, {"Rf", band.rf},
            {"start_mL", band.start_ml}, {"peak_mL", or_null(band.peak_ml)},
            {"end_mL", band.end_ml},     {"amount_mg", or_null(band.amount_mg)},
            {"load_mL", band.load_ml},   {"run", band.run},
            {"date", band.date},         {"source", band.source},
            {"note", band.note}};
}

Json library_json(const library::MeasurementRecord &record, library::Visit which) {
    Json json{{"id", record.id},
              {"compound", record.compound},
              {"system", record.system},
              {"quantity", to_text(record.quantity)},
              {"value", record.value}};
    json["uncertainty"] = or_null(record.uncertainty);
    json["run"] = record.run;
    json["date"] = record.date;
    json["operator"] = record.operator_name;
    json["instrument"] = record.instrument;
    json["source"] = record.source;
    json["note"] = record.note;
    if (which == library::Visit::all) {
        set_state(json, record);
    }
    return json;
}

} // namespace cospot

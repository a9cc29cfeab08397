#include "pool/pool_json.h"

#include "document/caution.h"
#include "pool/pool_words.h"

#include <string>
#include <vector>

namespace cospot {

namespace {

using fractions::FractionRange;
using fractions::PartialSum;

Json json_of(const PartialSum &sum) {
    return sum.known == 0 ? Json(nullptr)
                          : Json{{"total", sum.total}, {"known", sum.known}, {"of", sum.of}};
}

Json json_of(const std::vector<FractionRange> &ranges) {
    Json json = Json::array();
    for (const FractionRange &range : ranges) {
        json.push_back({{"first", range.first}, {"last", range.last}});
    }
    return json;
}

Json json_of(const std::optional<fractions::Recovery> &recovery) {
    if (!recovery) {
        return nullptr;
    }
    return {{"one_spot", recovery->one_spot},
            {"with_mixed", 1.0},
            {"by_volume", recovery->by_volume},
            {"lower_bound", recovery->is_lower_bound}};
}

Json names_of(const std::vector<std::size_t> &components, const fractions::ColumnRun &run) {
    Json names = Json::array();
    for (const std::size_t component : components) {
        names.push_back(run.components[component].name);
    }
    return names;
}

void add_rf(Json &json, const fractions::Component &component) {
    json["rf"] = or_null(component.rf);
    json["rf_low"] = nullptr;
    json["rf_high"] = nullptr;
    if (component.rf) {
        const auto [low, high] = rf_range(component);
        json["rf_low"] = low;
        json["rf_high"] = high;
    }
}

/// What the component may be; empty where no library was asked.
void add_candidates(Json &json, const Identification &identified) {
    Json candidates = Json::array();
    for (std::size_t i = 0; i < identified.candidates.size(); ++i) {
        const ProposedCompound &candidate = identified.candidates[i];
        candidates.push_back({{"rank", i + 1},
                              {"compound", candidate.name},
                              {"inchikey", candidate.inchikey},
                              {"probability", candidate.probability}});
    }
    Json groups = Json::array();
    for (const matcher::Group &group : identified.groups) {
        Json names = Json::array();
        for (const std::size_t member : group.members) {
            names.push_back(identified.candidates[member].name);
        }
        groups.push_back({{"compounds", std::move(names)},
                          {"probability", group.probability},
                          {"more", group.not_listed}});
    }
    json["candidates"] = std::move(candidates);
    json["groups"] = std::move(groups);
}

Json component_json(const PoolResult &result, std::size_t index) {
    const fractions::Component &component = result.run.components[index];
    const fractions::ComponentPool &pool = result.pooling.components[index];
    Json json{{"record", "component"}, {"component", component.name}};
    add_rf(json, component);
    json["first"] = result.run.fractions[component.spots.front().fraction].number;
    json["last"] = result.run.fractions[component.spots.back().fraction].number;
    json["target"] = is_target(result, index);
    Json &spots = json["spots"] = Json::array();
    for (const fractions::BandSpot &spot : component.spots) {
        spots.push_back({{"fraction", result.run.fractions[spot.fraction].number},
                         {"state", to_text(result.pooling.states[spot.fraction])},
                         {"rf", or_null(spot.rf)},
                         {"intensity", or_null(spot.intensity)}});
    }
    json["one_spot"] = pool.one_spot;
    json["mixed"] = pool.mixed;
    json["missed"] = pool.missed;
    json["not_seen"] = json_of(pool.not_seen);
    json["weak_edges"] = pool.weak_edges;
    json["recovery"] = json_of(pool.recovery);
    json["one_spot_mass"] = json_of(pool.one_spot_mass_mg);
    json["one_spot_volume"] = json_of(pool.one_spot_volume_ml);
    json["mixed_mass"] = json_of(pool.mixed_mass_mg);
    const bool is_identified = !result.candidates.empty();
    add_candidates(json, is_identified ? result.candidates[index] : Identification{});
    json["unlisted"] = is_identified ? Json(result.candidates[index].unlisted) : Json(nullptr);
    return json;
}

Json pools_json(const PoolResult &result) {
    Json pools = Json::array();
    for (std::size_t i = 0; i < result.run.components.size(); ++i) {
        const fractions::ComponentPool &pool = result.pooling.components[i];
        if (!pool.one_spot.empty()) {
            pools.push_back({{"component", result.run.components[i].name},
                             {"fractions", pool.one_spot},
                             {"mass", json_of(pool.one_spot_mass_mg)},
                             {"volume", json_of(pool.one_spot_volume_ml)},
                             {"recovery", json_of(pool.recovery)}});
        }
    }
    return pools;
}

Json mixed_json(const PoolResult &result) {
    Json mixed = Json::array();
    for (const fractions::MixedPool &pool : result.pooling.mixed) {
        mixed.push_back({{"components", names_of(pool.components, result.run)},
                         {"fractions", pool.fractions},
                         {"mass", json_of(pool.mass_mg)},
                         {"volume", json_of(pool.volume_ml)}});
    }
    return mixed;
}

Json fractions_json(const PoolResult &result) {
    Json all = Json::array();
    for (std::size_t i = 0; i < result.run.fractions.size(); ++i) {
        const fractions::Fraction &fraction = result.run.fractions[i];
        Json spots = Json::array();
        for (const std::size_t index : result.pooling.components_in[i]) {
            const fractions::Component &component = result.run.components[index];
            const fractions::BandSpot &spot = spot_in(component, i);
            spots.push_back({{"component", component.name},
                             {"rf", or_null(spot.rf)},
                             {"intensity", or_null(spot.intensity)}});
        }
        all.push_back({{"fraction", fraction.number},
                       {"state", to_text(result.pooling.states[i])},
                       {"plates", fraction.plates},
                       {"signal", or_null(fraction.signal)},
                       {"mass_mg", or_null(fraction.mass_mg)},
                       {"volume_mL", or_null(fraction.volume_ml)},
                       {"spots", std::move(spots)}});
    }
    return all;
}

Json target_json(const PoolResult &result) {
    if (!result.target) {
        return nullptr;
    }
    Json json{{"asked", result.target->asked}, {"component", nullptr}};
    if (result.target->component) {
        json["component"] = result.run.components[*result.target->component].name;
    }
    json["probability"] = or_null(result.target->probability);
    json["fault"] = target_fault(result);
    return json;
}

Json warnings_json(const PoolResult &result) {
    Json warnings = Json::array();
    for (const fractions::Warning &warning : result.warnings) {
        warnings.push_back({{"kind", to_text(warning.kind)},
                            {"components", names_of(warning.components, result.run)},
                            {"fractions", json_of(warning.fractions)},
                            {"text", warning_text(warning, result.run)}});
    }
    return warnings;
}

} // namespace

Json pool_json(const PoolResult &result) {
    Json objects = Json::array();
    for (std::size_t i = 0; i < result.run.components.size(); ++i) {
        objects.push_back(component_json(result, i));
    }
    std::vector<std::string> notes = pool_notes(result);
    if (!result.candidates.empty()) {
        notes.emplace_back(kRetentionIsNoProof);
    }
    objects.push_back({{"record", "pools"},
                       {"source", result.run.is_trace ? "trace" : "plates"},
                       {"pools", pools_json(result)},
                       {"mixed", mixed_json(result)},
                       {"no_spot", result.pooling.no_spot},
                       {"not_seen", json_of(result.pooling.not_seen)},
                       {"open_start", names_of(result.pooling.open_start, result.run)},
                       {"open_end", names_of(result.pooling.open_end, result.run)},
                       {"fractions", fractions_json(result)},
                       {"target", target_json(result)},
                       {"tolerance", or_null(result.tolerance)},
                       {"threshold", or_null(result.threshold)},
                       {"loaded_mg", or_null(result.loaded_mg)},
                       {"collected", json_of(collected_mg(result))},
                       {"warnings", warnings_json(result)},
                       {"needs_attention", needs_attention(result)},
                       {"notes", notes},
                       {"cautions", kColumnCautions}});
    return objects;
}

} // namespace cospot

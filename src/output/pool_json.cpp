#include "output/pool_json.h"

#include "output/caution.h"
#include "output/pool_words.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace cospot {

namespace {

using Json = nlohmann::ordered_json;
using fractions::FractionRange;
using fractions::PartialSum;

Json or_null(const std::optional<double> &value) {
    return value ? Json(*value) : Json(nullptr);
}

Json or_null(const PartialSum &sum) {
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
        const auto [least, most] = std::minmax_element(
            component.spots.begin(), component.spots.end(),
            [](const auto &a, const auto &b) { return a.rf.value() < b.rf.value(); });
        json["rf_low"] = or_null(least->rf);
        json["rf_high"] = or_null(most->rf);
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
        groups.push_back({{"compounds", std::move(names)}, {"probability", group.probability}});
    }
    json["candidates"] = std::move(candidates);
    json["groups"] = std::move(groups);
}

Json component_json(const PoolReport &report, std::size_t index) {
    const fractions::Component &component = report.run.components[index];
    const fractions::ComponentPool &pool = report.pooling.components[index];
    Json json{{"record", "component"}, {"component", component.name}};
    add_rf(json, component);
    json["first"] = report.run.fractions[component.spots.front().fraction].number;
    json["last"] = report.run.fractions[component.spots.back().fraction].number;
    json["target"] = report.target && report.target->component == index;
    Json &spots = json["spots"] = Json::array();
    for (const fractions::BandSpot &spot : component.spots) {
        spots.push_back({{"fraction", report.run.fractions[spot.fraction].number},
                         {"state", to_text(report.pooling.states[spot.fraction])},
                         {"rf", or_null(spot.rf)},
                         {"intensity", or_null(spot.intensity)}});
    }
    json["one_spot"] = pool.one_spot;
    json["mixed"] = pool.mixed;
    json["missed"] = pool.missed;
    json["not_seen"] = json_of(pool.not_seen);
    json["weak_edges"] = pool.weak_edges;
    json["recovery"] = json_of(pool.recovery);
    json["one_spot_mass"] = or_null(pool.one_spot_mass_mg);
    json["one_spot_volume"] = or_null(pool.one_spot_volume_ml);
    json["mixed_mass"] = or_null(pool.mixed_mass_mg);
    const bool is_identified = !report.candidates.empty();
    add_candidates(json, is_identified ? report.candidates[index] : Identification{});
    json["unlisted"] = is_identified ? Json(report.candidates[index].unlisted) : Json(nullptr);
    return json;
}

Json pools_json(const PoolReport &report) {
    Json pools = Json::array();
    for (std::size_t i = 0; i < report.run.components.size(); ++i) {
        const fractions::ComponentPool &pool = report.pooling.components[i];
        if (!pool.one_spot.empty()) {
            pools.push_back({{"component", report.run.components[i].name},
                             {"fractions", pool.one_spot},
                             {"mass", or_null(pool.one_spot_mass_mg)},
                             {"volume", or_null(pool.one_spot_volume_ml)},
                             {"recovery", json_of(pool.recovery)}});
        }
    }
    return pools;
}

Json mixed_json(const PoolReport &report) {
    Json mixed = Json::array();
    for (const fractions::MixedPool &pool : report.pooling.mixed) {
        mixed.push_back({{"components", names_of(pool.components, report.run)},
                         {"fractions", pool.fractions},
                         {"mass", or_null(pool.mass_mg)},
                         {"volume", or_null(pool.volume_ml)}});
    }
    return mixed;
}

Json fractions_json(const PoolReport &report) {
    Json all = Json::array();
    for (std::size_t i = 0; i < report.run.fractions.size(); ++i) {
        const fractions::Fraction &fraction = report.run.fractions[i];
        Json spots = Json::array();
        for (const std::size_t index : report.pooling.components_in[i]) {
            const fractions::Component &component = report.run.components[index];
            const auto spot = std::find_if(component.spots.begin(), component.spots.end(),
                                           [&](const auto &other) { return other.fraction == i; });
            spots.push_back({{"component", component.name},
                             {"rf", or_null(spot->rf)},
                             {"intensity", or_null(spot->intensity)}});
        }
        all.push_back({{"fraction", fraction.number},
                       {"state", to_text(report.pooling.states[i])},
                       {"plates", fraction.plates},
                       {"signal", or_null(fraction.signal)},
                       {"mass_mg", or_null(fraction.mass_mg)},
                       {"volume_mL", or_null(fraction.volume_ml)},
                       {"spots", std::move(spots)}});
    }
    return all;
}

Json target_json(const PoolReport &report) {
    if (!report.target) {
        return nullptr;
    }
    Json json{{"asked", report.target->asked}, {"component", nullptr}};
    if (report.target->component) {
        json["component"] = report.run.components[*report.target->component].name;
    }
    json["probability"] = or_null(report.target->probability);
    json["fault"] = target_fault(report);
    return json;
}

Json warnings_json(const PoolReport &report) {
    Json warnings = Json::array();
    for (const fractions::Warning &warning : report.warnings) {
        warnings.push_back({{"kind", to_text(warning.kind)},
                            {"components", names_of(warning.components, report.run)},
                            {"fractions", json_of(warning.fractions)},
                            {"text", warning_text(warning, report.run)}});
    }
    return warnings;
}

std::string line_of(const Json &json) {
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

} // namespace

std::vector<std::string> pool_json(const PoolReport &report) {
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < report.run.components.size(); ++i) {
        lines.push_back(line_of(component_json(report, i)));
    }
    std::vector<std::string> notes = report.notes;
    const std::vector<std::string> assumptions = pool_assumptions(report);
    notes.insert(notes.end(), assumptions.begin(), assumptions.end());
    if (!report.candidates.empty()) {
        notes.emplace_back(kRetentionIsNoProof);
    }
    lines.push_back(line_of({{"record", "pools"},
                             {"source", report.run.is_trace ? "trace" : "plates"},
                             {"pools", pools_json(report)},
                             {"mixed", mixed_json(report)},
                             {"no_spot", report.pooling.no_spot},
                             {"not_seen", json_of(report.pooling.not_seen)},
                             {"open_start", names_of(report.pooling.open_start, report.run)},
                             {"open_end", names_of(report.pooling.open_end, report.run)},
                             {"fractions", fractions_json(report)},
                             {"target", target_json(report)},
                             {"tolerance", or_null(report.tolerance)},
                             {"threshold", or_null(report.threshold)},
                             {"loaded_mg", or_null(report.loaded_mg)},
                             {"warnings", warnings_json(report)},
                             {"needs_attention", needs_attention(report)},
                             {"notes", notes},
                             {"cautions", kColumnCautions}}));
    return lines;
}

} // namespace cospot

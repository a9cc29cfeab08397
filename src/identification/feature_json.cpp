#include "identification/feature_json.h"

#include "document/caution.h"
#include "evidence/cospots.h"
#include "identification/beside_words.h"
#include "model/matcher/basis_text.h"

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

Json json_of(const FeatureObservation &observation) {
    Json json{{"system", observation.system},
              {"quantity", to_text(observation.quantity)},
              {"value", observation.value},
              {"uncertainty", observation.uncertainty}};
    if (observation.extrapolated) {
        json["extrapolated"] = true;
    }
    return json;
}

Json evidence_of(const FurtherEvidence &further) {
    Json evidence = Json::array();
    if (further.uv254) {
        evidence.push_back({{"kind", "uv254"}, {"value", *further.uv254}});
    }
    for (const StainTest &test : further.stains) {
        evidence.push_back({{"kind", "stain"}, {"stain", test.stain}, {"value", test.stained}});
    }
    if (further.molar_mass) {
        evidence.push_back(
            {{"kind", "molar_mass"},
             {"value", *further.molar_mass},
             {"uncertainty", further.molar_mass_uncertainty.value_or(kMolarMassUncertainty)}});
    }
    if (!further.formula.empty()) {
        evidence.push_back({{"kind", "formula"}, {"value", further.formula}});
    }
    return evidence;
}

Json json_of(const RunPlace &place) {
    return {{"system", place.system},
            {"quantity", to_text(place.quantity)},
            {"at", place.found.place},
            {"shift", place.found.shift},
            {"uncertainty", place.found.uncertainty},
            {"slope", place.found.slope},
            {"accident", place.found.accident},
            {"elsewhere", place.found.second},
            {"moved", place.moved},
            {"fits", place.found.fits}};
}

Json json_of(const ProposedCompound &candidate, std::size_t rank, const Feature &feature,
             const std::vector<std::string> &because) {
    const matcher::Comparison &main = worst_comparison(candidate.comparisons);
    Json json{{"rank", rank},
              {"compound", candidate.name},
              {"inchikey", candidate.inchikey},
              {"smiles", candidate.smiles},
              {"probability", candidate.probability},
              {"basis", to_text(main.basis)},
              {"expected", main.expected},
              {"spread", main.spread},
              {"deviation", main.deviation}};
    if (!is_empty(feature.further)) {
        json["further"] = candidate.further;
    }
    Json &systems = json["systems"] = Json::array();
    for (const matcher::Comparison &comparison : candidate.comparisons) {
        const FeatureObservation &observation = feature.observations[comparison.observation];
        systems.push_back({{"system", observation.system},
                           {"quantity", to_text(observation.quantity)},
                           {"basis", to_text(comparison.basis)},
                           {"expected", comparison.expected},
                           {"spread", comparison.spread},
                           {"deviation", comparison.deviation},
                           {"runs", comparison.runs}});
        set_where_known(systems.back(), "in_library", comparison.in_library);
        set_where_known(systems.back(), "standard_value", comparison.beside);
    }
    json["because"] = because;
    return json;
}

/// `run` is the name of the plate, where there are several.
Json json_of(const PlatePlace &place, const std::string &run) {
    Json standards = Json::array();
    const auto measured = [&](double mm) { return place.is_noted_rf ? Json() : Json(mm); };
    for (const PlateStandard &standard : *place.standards) {
        standards.push_back({{"lane", standard.lane},
                             {"label", standard.label},
                             {"spot", standard.spot},
                             {"distance_mm", measured(standard.distance_mm)},
                             {"front_mm", measured(standard.front_mm)}});
    }
    Json json{{"lane", place.lane},
              {"distance_mm", measured(place.distance_mm)},
              {"front_mm", measured(place.front_mm)},
              {"standards", standards}};
    if (!run.empty()) {
        json["name"] = run;
    }
    return json;
}

Json standards_of(const Identification &result) {
    Json standards = Json::array();
    for (const BesideStandard &standard : result.standards) {
        standards.push_back({{"compound", standard.name},
                             {"place", standard.place},
                             {"system", standard.system},
                             {"distance", standard.distance},
                             {"unit", standard.unit == "in Rf" ? "Rf" : standard.unit},
                             {"probability", standard.probability},
                             {"verdict", to_text(standard.verdict)},
                             {"words", beside_words(standard)}});
    }
    return standards;
}

Json cospots_of(const Identification &result) {
    Json cospots = Json::array();
    for (const CoSpot &cospot : result.cospots) {
        cospots.push_back({{"compound", cospot.standard},
                           {"lane", cospot.lane},
                           {"spots", cospot.finding == CoSpotFinding::two_spots ? 2 : 1},
                           {"apart_mm", cospot.is_noted_rf ? Json() : Json(cospot.apart_mm)},
                           {"words", words_of(cospot)}});
    }
    return cospots;
}

/// Where the spot or peak was read, as far as that is known.
void add_place(Json &json, const Feature &feature) {
    if (feature.plate) {
        json["plate"] = json_of(*feature.plate, feature.run);
    }
    if (!feature.date.empty()) {
        json["date"] = feature.date;
    }
    set_where_known(json, "tR", feature.retention_time_min);
    if (const auto &pair = feature.pair) {
        json["pair"] = {{"peak", pair->name},
                        {"system", pair->system},
                        {"tR", pair->retention_time_min},
                        {"percent", pair->percent},
                        {"first_percent", pair->first_percent},
                        {"probability", pair->probability}};
    }
    set_where_known(json, "area", feature.area);
    set_where_known(json, "height", feature.shape.height);
    set_where_known(json, "start", feature.shape.start_min);
    set_where_known(json, "end", feature.shape.end_min);
    set_where_known(json, "width_half", feature.shape.width_half_min);
}

Json groups_of(const Identification &result) {
    Json groups = Json::array();
    for (const matcher::Group &group : result.groups) {
        if (group.members.size() + group.not_listed > 1) {
            Json names = Json::array();
            for (const std::size_t member : group.members) {
                names.push_back(result.candidates[member].name);
            }
            groups.push_back({{"compounds", names}, {"probability", group.probability}});
            if (group.not_listed > 0) {
                groups.back()["more"] = group.not_listed;
            }
        }
    }
    return groups;
}

} // namespace

const matcher::Comparison &worst_comparison(const std::vector<matcher::Comparison> &comparisons) {
    return *std::max_element(
        comparisons.begin(), comparisons.end(), [](const auto &a, const auto &b) {
            return std::abs(a.deviation) / a.spread < std::abs(b.deviation) / b.spread;
        });
}

Json feature_json(const Feature &feature, const Identification &result,
                  const ExplanationWords &words, std::span<const RunPlace> places,
                  std::span<const std::string> notes) {
    Json json{{"sample", feature.sample}, {"feature", feature.name}};
    Json &observations = json["observations"] = Json::array();
    for (const FeatureObservation &observation : feature.observations) {
        observations.push_back(json_of(observation));
    }
    json["evidence"] = evidence_of(feature.further);
    Json &run = json["run"] = Json::array();
    for (const RunPlace &place : places) {
        run.push_back(json_of(place));
    }
    add_place(json, feature);
    Json &candidates = json["candidates"] = Json::array();
    for (std::size_t i = 0; i < result.candidates.size(); ++i) {
        candidates.push_back(json_of(result.candidates[i], i + 1, feature, words.because[i]));
    }
    json["standards"] = standards_of(result);
    json["cospots"] = cospots_of(result);
    json["next"] = words.next;
    json["groups"] = groups_of(result);
    json["unlisted"] = result.unlisted;
    json["other"] = result.other;
    json["not_measured"] = {{"probability", result.not_measured},
                            {"compounds", result.not_measured_count}};
    json["set"] = result.set;
    json["warnings"] = result.warnings;
    json["notes"] = std::vector<std::string>(notes.begin(), notes.end());
    json["level"] = result.level;
    json["caution"] = kRetentionIsNoProof;
    return json;
}

} // namespace cospot

#include "purity/purity_json.h"

#include "document/caution.h"
#include "identification/feature_json.h"

#include <string>
#include <vector>

namespace cospot {

namespace {

using purity::JudgedFeature;

/// What `identify` says of the feature, and what purity makes of it.
Json judged_feature_json(const JudgedFeature &judged) {
    ExplanationWords words;
    words.because.resize(judged.identification.candidates.size());
    Json json = feature_json(judged.feature, judged.identification, words, {}, {});
    json["role"] = to_text(judged.role);
    if (!judged.feature.unretained.empty()) {
        json["unretained"] = judged.feature.unretained;
    }
    set_where_known(json, "area", judged.area);
    set_where_known(json, "symmetry", judged.feature.shape.symmetry);
    set_where_known(json, "relative_retention", judged.relative_retention);
    set_where_known(json, "per_cent", judged.per_cent);
    if (judged.ppm) {
        json["ppm"] = *judged.ppm;
        json["ppm_basis"] = judged.feature.ppm ? "given" : "response";
    }
    if (judged.reported) {
        json["reported_per_cent"] = to_text(*judged.reported);
        json["response_factor"] = judged.response_factor;
        json["response_factor_basis"] = judged.response_is_held ? "library" : "assumed";
    }
    json["declared_probability"] = judged.declared_probability;
    json["identity"] = {{"name", judged.identity.name},
                        {"judged", judged.identity.is_judged},
                        {"probability", judged.identity.is_judged
                                            ? Json(judged.identity.probability)
                                            : Json(nullptr)},
                        {"unlisted", judged.identity.is_unlisted},
                        {"named", judged.identity.is_named},
                        {"contradicted", judged.identity.is_contradicted},
                        {"expected", judged.identity.is_expected},
                        {"confirmed", judged.identity.is_confirmed}};
    json["actions"] = judged.actions;
    return json;
}

Json purity_ratio_json(purity::Ratio ratio) {
    return ratio == purity::Ratio::none
               ? Json(nullptr)
               : Json{{"symbol", symbol(ratio)}, {"definition", definition(ratio)}};
}

Json judged_rule_json(const purity::RuleVerdict &verdict) {
    return {{"rule", verdict.rule},
            {"limit", verdict.limit},
            {"found", verdict.found},
            {"verdict", to_text(verdict.verdict)},
            {"reason", verdict.reason}};
}

Json sample_json(const purity::JudgedSample &sample,
                 const std::vector<std::string> &notes_of_file) {
    Json json{{"kind", "sample"}, {"sample", sample.name}, {"declared", sample.declared}};
    json["main"] = sample.main ? Json(sample.features[*sample.main].feature.name) : Json(nullptr);
    json["probability"] = sample.main ? sample.features[*sample.main].declared_probability : 0.0;
    json["main_is_reference"] = sample.main_is_reference;
    json["in_order"] = is_in_order(sample);
    json["confirmed"] = sample.confirmed;
    json["relative_retention_is"] = purity_ratio_json(sample.ratio);
    Json &features = json["features"] = Json::array();
    for (const JudgedFeature &feature : sample.features) {
        features.push_back(judged_feature_json(feature));
    }
    json["disregarded"] = {{"count", sample.disregarded_count},
                           {"per_cent", sample.disregarded_per_cent}};
    set_where_known(json, "impurities_per_cent", sample.impurities_per_cent);
    Json &rules = json["rules"] = Json::array();
    for (const purity::RuleVerdict &verdict : sample.verdicts) {
        rules.push_back(judged_rule_json(verdict));
    }
    json["hidden"] = sample.hidden;
    std::vector<std::string> notes = notes_of_file;
    notes.insert(notes.end(), sample.notes.begin(), sample.notes.end());
    json["notes"] = notes;
    json["caution"] = kRetentionIsNoProof;
    return json;
}

Json trend_json(const purity::Trend &trend) {
    Json json{{"kind", "trend"},
              {"samples", trend.samples},
              {"relative_retention_is", purity_ratio_json(trend.ratio)}};
    Json &rows = json["rows"] = Json::array();
    for (const purity::TrendRow &row : trend.rows) {
        Json per_cent = Json::array();
        for (const auto &share : row.per_cent) {
            per_cent.push_back(share ? Json(*share) : Json(nullptr));
        }
        rows.push_back(
            {{"name", row.name}, {"per_cent", per_cent}, {"below_reporting", row.is_below}});
    }
    return json;
}

} // namespace

Json purity_results(const purity::PurityResult &result) {
    Json results = Json::array();
    auto sample = result.samples.begin();
    for (const purity::JudgedFile &file : result.files) {
        for (std::size_t i = 0; i < file.count; ++i, ++sample) {
            // What holds for the whole file is said with its first sample.
            std::vector<std::string> notes = i == 0 ? file.lead : std::vector<std::string>{};
            notes.insert(notes.end(), file.notes.begin(),
                         i == 0 ? file.notes.end() : file.notes.begin());
            results.push_back(sample_json(*sample, notes));
        }
    }
    if (result.trend) {
        results.push_back(trend_json(*result.trend));
    }
    return results;
}

} // namespace cospot

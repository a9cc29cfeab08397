#include "advise/advise_json.h"

#include "document/caution.h"

#include <utility>

namespace cospot {

namespace {

Json measurements_json(const std::vector<AdvisedMeasurement> &measurements) {
    Json result = Json::array();
    for (const AdvisedMeasurement &one : measurements) {
        result.push_back({{"measurement", one.name},
                          {"kind", one.kind},
                          {"known", one.known},
                          {"bits", one.gain.bits},
                          {"leaves", one.gain.remaining},
                          {"effort", one.effort},
                          {"bits_per_effort", one.bits_per_effort()}});
    }
    return result;
}

Json set_json(const AdvisedSet &set) {
    return {{"systems", set.systems},
            {"discriminating_power", set.discriminating_power},
            {"mean_list_length", set.mean_list_length}};
}

} // namespace

Json feature_advice_json(const FeatureAdvice &advice) {
    Json candidates = Json::array();
    for (const OpenCandidate &candidate : advice.candidates) {
        candidates.push_back(
            {{"compound", candidate.name}, {"probability", candidate.probability}});
    }
    return {{"kind", "feature"},
            {"sample", advice.sample},
            {"feature", advice.feature},
            {"open_bits", advice.open_bits},
            {"considered", advice.candidates.size()},
            {"remaining", advice.remaining},
            {"candidates", candidates},
            {"other", advice.other},
            {"unlisted", advice.unlisted},
            {"measurements", measurements_json(advice.measurements)},
            {"caution", kRetentionIsNoProof}};
}

Json sample_advice_json(const SampleAdvice &advice) {
    return {{"kind", "sample"},
            {"sample", advice.features.front().sample},
            {"measurements", measurements_json(advice.together)}};
}

Json system_advice_json(const SystemAdvice &advice) {
    Json json{{"kind", "systems"},
              {"compounds", advice.compounds},
              {"exact", advice.is_exact},
              {"at_least", advice.at_least}};
    for (const auto &[name, sets] : {std::pair("alone", &advice.alone), {"sets", &advice.sets}}) {
        Json &list = json[name] = Json::array();
        for (const AdvisedSet &set : *sets) {
            list.push_back(set_json(set));
        }
    }
    Json &pairs = json["inseparable"] = Json::array();
    for (const auto &[first, second] : advice.inseparable) {
        pairs.push_back({first, second});
    }
    json["never_together"] = advice.never_together;
    return json;
}

} // namespace cospot

#include "output/distil_json.h"

#include "output/caution.h"
#include "output/distil_words.h"

#include <nlohmann/json.hpp>

namespace cospot {

namespace {

using Json = nlohmann::ordered_json;

Json or_null(const std::optional<double> &value) {
    return value ? Json(*value) : Json(nullptr);
}

std::string line_of(const Json &json) {
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

} // namespace

std::string distilled_sample_json(const distillation::DistilledSample &sample) {
    Json ladder = Json::array();
    for (const quantities::BoilingMember &member : sample.scale.members) {
        ladder.push_back(
            {{"carbon", member.carbon}, {"tR", member.time_min}, {"celsius", member.celsius}});
    }
    Json peaks = Json::array();
    for (const distillation::DistilledPeak &peak : sample.peaks) {
        peaks.push_back({{"peak", peak.name},
                         {"tR", peak.retention_time_min},
                         {"area", peak.area},
                         {"per_cent", peak.is_solvent ? Json(nullptr) : Json(peak.per_cent)},
                         {"celsius", or_null(peak.boiling.celsius)},
                         {"position", to_text(peak.boiling.position)},
                         {"solvent", peak.is_solvent}});
    }
    Json recovered = Json::array();
    for (const distillation::Recovered &row : sample.recovered) {
        recovered.push_back({{"per_cent", row.per_cent},
                             {"celsius", or_null(row.celsius)},
                             {"position", to_text(row.place)}});
    }
    return line_of({{"kind", "distillation"},
                    {"sample", sample.name},
                    {"ladder", ladder},
                    {"ladder_left_out", sample.scale.left_out},
                    {"peaks", peaks},
                    {"before_per_cent", sample.before_per_cent},
                    {"behind_per_cent", sample.behind_per_cent},
                    {"recovered", recovered},
                    {"uses_start_and_end", sample.uses_widths},
                    {"cautions", {kAreaIsNoMass, kGasCaution, kRetentionIsNoProof}}});
}

std::string volatility_order_json(const distillation::VolatilityOrder &order) {
    Json compounds = Json::array();
    for (const distillation::ComparedCompound &compound : order.compounds) {
        compounds.push_back({{"compound", compound.name},
                             {"index", compound.index},
                             {"celsius_by_index", compound.by_index},
                             {"celsius_estimated", compound.estimated},
                             {"standard_error", compound.standard_error},
                             {"place", compound.place},
                             {"expected_place", compound.expected_place},
                             {"standing", to_text(compound.standing)}});
    }
    return line_of({{"kind", "order by boiling point"},
                    {"system", order.system},
                    {"stationary_phase", order.stationary_phase},
                    {"polar", order.phase == quantities::GasPhase::unknown
                                  ? Json(nullptr)
                                  : Json(order.phase == quantities::GasPhase::polar)},
                    {"compounds", compounds},
                    {"usual_difference", order.usual_difference},
                    {"spread", order.spread},
                    {"ordered_pairs", order.ordered_pairs},
                    {"pairs", order.pairs},
                    {"left_out", order.left_out},
                    {"rule", phase_rule(order.phase)},
                    {"cautions", {kGasCaution, kRetentionIsNoProof}}});
}

} // namespace cospot

#include "distil/distil_json.h"

#include "distil/distil_result.h"
#include "document/caution.h"

namespace cospot {

Json distilled_sample_json(const distillation::DistilledSample &sample) {
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
                         {"position", distillation::to_text(peak.boiling.position)},
                         {"solvent", peak.is_solvent},
                         {"start", or_null(peak.start_min)},
                         {"end", or_null(peak.end_min)},
                         {"height", or_null(peak.height)},
                         {"width_half", or_null(peak.width_half_min)}});
    }
    Json recovered = Json::array();
    for (const distillation::Recovered &row : sample.recovered) {
        recovered.push_back({{"per_cent", row.per_cent},
                             {"celsius", or_null(row.celsius)},
                             {"position", to_text(row.place)}});
    }
    return {{"kind", "distillation"},
            {"sample", sample.name},
            {"ladder", ladder},
            {"ladder_left_out", sample.scale.left_out},
            {"peaks", peaks},
            {"before_per_cent", sample.before_per_cent},
            {"behind_per_cent", sample.behind_per_cent},
            {"recovered", recovered},
            {"uses_start_and_end", sample.uses_widths},
            {"cautions", {kAreaIsNoMass, kGasCaution, kRetentionIsNoProof}}};
}

Json volatility_order_json(const distillation::VolatilityOrder &order) {
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
    return {{"kind", "order by boiling point"},
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
            {"rule", distillation::phase_rule(order.phase)},
            {"cautions", {kGasCaution, kRetentionIsNoProof}}};
}

} // namespace cospot

#include "peaks/peaks_json.h"

#include "peaks/compared_peaks.h"

#include <fmt/format.h>

#include <utility>

namespace cospot {

namespace {

using signal::FoundPeak;

Json json_of(const FoundPeak &peak, std::size_t number, double total) {
    Json json{{"peak", fmt::to_string(number)},
              {"tR", peak.apex},
              {"uncertainty", peak.apex_uncertainty},
              {"area", peak.area * kSecondsInMinute},
              {"area_uncertainty", peak.area_uncertainty * kSecondsInMinute},
              {"area_percent", total > 0.0 ? 100 * peak.area / total : 0.0},
              {"height", peak.height},
              {"start", peak.start},
              {"end", peak.end},
              {"width_half", peak.half_width},
              {"is_shoulder", peak.is_shoulder},
              {"is_cut_off", peak.is_cut_off},
              {"is_saturated", peak.is_saturated},
              {"shares_area", peak.shares_area()}};
    set_where_known(json, "symmetry", peak.symmetry);
    set_where_known(json, "plate_number", peak.plate_number);
    set_where_known(json, "resolution_to_next", peak.resolution_to_next);
    set_where_known(json, "peak_to_valley_to_next", peak.peak_to_valley_to_next);
    set_where_known(json, "signal_to_noise", peak.signal_to_noise);
    return json;
}

Json json_of_trace(const Integration &integration, const IntegrationSettings &settings) {
    const RecordedTrace &trace = *integration.recorded;
    Json stored = Json::array();
    for (const auto &[own, found] : compared_with_stored(integration)) {
        Json one{{"tR", own->apex_min}};
        set_where_known(one, "area", own->area);
        if (found != nullptr) {
            one["found"] = fmt::to_string(found - integration.found.peaks.data() + 1);
        }
        stored.push_back(std::move(one));
    }
    return {{"file", integration.file},
            {"format", integration.format},
            {"sample", integration.sample},
            {"injected_at", integration.injected_at},
            {"trace", integration.trace},
            {"points", trace.time_min.size()},
            {"first_min", trace.time_min.front()},
            {"last_min", trace.time_min.back()},
            {"signal_unit", trace.signal_unit},
            {"noise", integration.found.noise.recorded},
            {"settings", settings_words(integration, settings)},
            {"changes_by_hand", edits_words(settings.edits)},
            {"reason", settings.reason},
            {"notes", integration.notes},
            {"stored_peaks", std::move(stored)}};
}

} // namespace

std::vector<Json> peaks_json(const Integration &integration, const IntegrationSettings &settings) {
    std::vector<Json> objects;
    const double total = total_area(integration);
    for (std::size_t i = 0; i < integration.found.peaks.size(); ++i) {
        const FoundPeak &peak = integration.found.peaks[i];
        objects.push_back(json_of(peak, i + 1, total));
    }
    objects.push_back(json_of_trace(integration, settings));
    return objects;
}

} // namespace cospot

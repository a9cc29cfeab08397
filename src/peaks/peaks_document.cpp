#include "peaks/peaks_document.h"

#include "document/cells.h"
#include "drawing/chromatogram_picture.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

constexpr double kSecondsInMinute = 60.0;

using signal::FoundPeak;

double total_area(const Integration &integration) {
    double total = 0.0;
    for (const FoundPeak &peak : integration.found.peaks) {
        total += peak.area;
    }
    return total;
}

/// "shoulder; shares its area"
std::string remarks_on(const FoundPeak &peak) {
    std::string text;
    const auto add = [&](bool is, const char *what) {
        text += is ? (text.empty() ? "" : "; ") + std::string(what) : "";
    };
    add(peak.is_shoulder, "shoulder");
    add(peak.is_saturated, "flat top");
    add(peak.is_cut_off, "cut off");
    add(peak.shares_area(), "shares its area");
    return text;
}

Cell significant_cell(double value) {
    return {fmt::format("{:.4g}", value), value};
}

Table peak_table(const Integration &integration) {
    Table table{.label = "Peaks",
                .columns = {{"Peak", true},
                            {"tR, min", true},
                            {"± u", true},
                            {"Area", true},
                            {"Area %", true},
                            {"Height", true},
                            {"S/N", true},
                            {"Remarks"}},
                .is_sortable = true};
    const double total = total_area(integration);
    for (std::size_t i = 0; i < integration.found.peaks.size(); ++i) {
        const FoundPeak &peak = integration.found.peaks[i];
        Row row{{count_cell(i + 1), number_cell(peak.apex, 3),
                 Cell{fmt::format("{:.2g}", peak.apex_uncertainty), peak.apex_uncertainty},
                 significant_cell(peak.area * kSecondsInMinute),
                 number_cell(total > 0.0 ? 100 * peak.area / total : 0.0, 2),
                 significant_cell(peak.height), number_cell(peak.signal_to_noise, 0),
                 Cell{remarks_on(peak)}}};
        row.mark = fmt::to_string(i + 1);
        table.rows.push_back(std::move(row));
    }
    return table;
}

Table shape_table(const Integration &integration) {
    Table table{.label = "Shapes",
                .columns = {{"Peak", true},
                            {"Start", true},
                            {"End", true},
                            {"w½, s", true},
                            {"A_s", true},
                            {"N", true},
                            {"R_s to next", true},
                            {"p/v to next", true}}};
    for (std::size_t i = 0; i < integration.found.peaks.size(); ++i) {
        const FoundPeak &peak = integration.found.peaks[i];
        Row row{{count_cell(i + 1), number_cell(peak.start, 3), number_cell(peak.end, 3),
                 number_cell(peak.half_width * kSecondsInMinute, 2), number_cell(peak.symmetry, 2),
                 number_cell(peak.plate_number, 0), number_cell(peak.resolution_to_next, 2),
                 number_cell(peak.peak_to_valley_to_next, 1)}};
        row.mark = fmt::to_string(i + 1);
        table.rows.push_back(std::move(row));
    }
    return table;
}

Figure picture_of(const Integration &integration) {
    std::vector<DrawnPeak> peaks;
    for (std::size_t i = 0; i < integration.found.peaks.size(); ++i) {
        const FoundPeak &peak = integration.found.peaks[i];
        peaks.push_back({.key = fmt::to_string(i + 1),
                         .title = fmt::format("peak {} at {:.3f} min", i + 1, peak.apex),
                         .retention_time_min = peak.apex,
                         .area = peak.area,
                         .height = peak.height,
                         .start_min = peak.start,
                         .end_min = peak.end,
                         .width_half_min = peak.half_width});
    }
    ChromatogramPicture picture =
        chromatogram_picture(peaks, "Trace of " + integration.file, {}, integration.recorded.get());
    return {std::move(picture.svg), std::move(picture.caption)};
}

Table stored_table(const Integration &integration) {
    Table table{.label = "The file's own table of peaks",
                .columns = {{"Its peak", true},
                            {"tR, min", true},
                            {"Its area", true},
                            {"Found", true},
                            {"tR apart, s", true},
                            {"Area found, % of its own", true}}};
    const auto compared = compared_with_stored(integration);
    for (std::size_t i = 0; i < compared.size(); ++i) {
        const auto &[stored, found] = compared[i];
        Row row{{count_cell(i + 1), number_cell(stored->apex_min, 3),
                 stored->area ? significant_cell(*stored->area) : Cell{}}};
        if (found == nullptr) {
            row.cells.insert(row.cells.end(), {{"none"}, {}, {}});
        } else {
            row.cells.push_back(
                count_cell(static_cast<std::size_t>(found - integration.found.peaks.data()) + 1));
            row.cells.push_back(
                number_cell((found->apex - stored->apex_min) * kSecondsInMinute, 2));
            row.cells.push_back(
                stored->area.value_or(0.0) > 0.0
                    ? number_cell(100 * found->area * kSecondsInMinute / *stored->area, 1)
                    : Cell{});
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

DataTable data_of(const Integration &integration) {
    DataTable data{{"peak", "tR", "uncertainty", "area", "height", "start", "end", "width_half",
                    "symmetry", "plate_number", "resolution_to_next", "peak_to_valley_to_next",
                    "signal_to_noise", "remarks"}};
    for (std::size_t i = 0; i < integration.found.peaks.size(); ++i) {
        const FoundPeak &peak = integration.found.peaks[i];
        data.rows.push_back({static_cast<std::int64_t>(i + 1), peak.apex, peak.apex_uncertainty,
                             peak.area * kSecondsInMinute, peak.height, peak.start, peak.end,
                             peak.half_width, datum_of(peak.symmetry), datum_of(peak.plate_number),
                             datum_of(peak.resolution_to_next),
                             datum_of(peak.peak_to_valley_to_next), datum_of(peak.signal_to_noise),
                             remarks_on(peak)});
    }
    return data;
}

List what_it_means() {
    return {"",
            {"± u: standard uncertainty of the time, from the noise and from what neighbours may "
             "shift; identify uses it.",
             "Area: signal times s. w½: width at half height. A_s, N, R_s, p/v and S/N = 2H/h as "
             "in Ph. Eur. 2.2.46; h is the range of the noise over up to 20 half widths beside the "
             "peak.",
             "Peaks that lie so close that neither a maximum nor a shoulder is left are not seen: "
             "half of the overlapped ones are lost by every method."}};
}

} // namespace

std::vector<ComparedPeak> compared_with_stored(const Integration &integration) {
    std::vector<ComparedPeak> compared;
    for (const StoredPeak &stored : integration.stored) {
        const FoundPeak *nearest = nullptr;
        for (const FoundPeak &found : integration.found.peaks) {
            const bool is_inside = stored.apex_min >= found.start && stored.apex_min <= found.end;
            if (is_inside &&
                (nearest == nullptr || std::abs(found.apex - stored.apex_min) <
                                           std::abs(nearest->apex - stored.apex_min))) {
                nearest = &found;
            }
        }
        compared.push_back({&stored, nearest});
    }
    return compared;
}

Document peaks_document(const Integration &integration, const IntegrationSettings &settings) {
    const RecordedTrace &trace = *integration.recorded;
    Document document{.title = "Peaks of " + integration.file,
                      .lead =
                          fmt::format("{} in {}{}, {:.2f} to {:.2f} min.",
                                      counted(integration.found.peaks.size(), "peak"),
                                      counted(trace.time_min.size(), "point"),
                                      integration.trace.empty() ? "" : " of " + integration.trace,
                                      trace.time_min.front(), trace.time_min.back()),
                      .data = data_of(integration)};
    document.blocks.emplace_back(picture_of(integration));
    document.blocks.emplace_back(Section{"Peak by peak", "", {}, {peak_table(integration)}});
    document.blocks.emplace_back(Section{"Borders and shapes", "", {}, {shape_table(integration)}});
    if (!integration.stored.empty()) {
        document.blocks.emplace_back(
            Section{"Beside the file's own table", "", {}, {stored_table(integration)}});
    }
    document.blocks.emplace_back(Details{{Section{"What it means", "", {}, {what_it_means()}}}});
    document.notes.push_back("settings used: " + settings_words(integration, settings));
    return document;
}

std::vector<Json> peaks_json(const Integration &integration, const IntegrationSettings &settings) {
    std::vector<Json> objects;
    const double total = total_area(integration);
    for (std::size_t i = 0; i < integration.found.peaks.size(); ++i) {
        const FoundPeak &peak = integration.found.peaks[i];
        Json json{{"peak", fmt::to_string(i + 1)},
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
        objects.push_back(std::move(json));
    }
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
    objects.push_back({{"file", integration.file},
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
                       {"stored_peaks", std::move(stored)}});
    return objects;
}

} // namespace cospot

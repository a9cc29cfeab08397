#include "peaks/peaks_document.h"

#include "document/cells.h"
#include "drawing/chromatogram_picture.h"
#include "peaks/compared_peaks.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

using signal::FoundPeak;

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

/// "13 peaks in 4651 points of DAD, 0.00 to 31.00 min (ASTM E1947)."
std::string summary_of(const Integration &integration) {
    const RecordedTrace &trace = *integration.recorded;
    return fmt::format("{} in {}{}, {:.2f} to {:.2f} min ({}).",
                       counted(integration.found.peaks.size(), "peak"),
                       counted(trace.time_min.size(), "point"),
                       integration.trace.empty() ? "" : " of " + integration.trace,
                       trace.time_min.front(), trace.time_min.back(), integration.format);
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

std::vector<std::string> what_it_means() {
    return {"± u: standard uncertainty of the time, from the noise and from what neighbours may "
            "shift; identify uses it.",
            "Area: signal times s. w½: width at half height. A_s, N, R_s, p/v and S/N = 2H/h as "
            "in Ph. Eur. 2.2.46; h is the range of the noise over up to 20 half widths beside the "
            "peak.",
            "Peaks that lie so close that neither a maximum nor a shoulder is left are not seen: "
            "half of the overlapped ones are lost by every method."};
}

} // namespace

Document peaks_document(const Integration &integration, const IntegrationSettings &settings) {
    Document document{.title = "Peaks of " + integration.file, .data = data_of(integration)};
    document.blocks.emplace_back(Paragraph{summary_of(integration), Paragraph::Role::verdict});
    document.blocks.emplace_back(picture_of(integration));
    document.blocks.emplace_back(Section{"Peak by peak", "", {}, {peak_table(integration)}});
    document.blocks.emplace_back(Section{"Borders and shapes", "", {}, {shape_table(integration)}});
    if (!integration.stored.empty()) {
        document.blocks.emplace_back(
            Section{"Beside the file's own table", "", {}, {stored_table(integration)}});
    }
    document.notes = what_it_means();
    document.notes.push_back("Settings used: " + settings_words(integration, settings));
    return document;
}

} // namespace cospot

#include "distil/distil_report.h"

#include "document/html.h"
#include "drawing/boiling_axis.h"
#include "drawing/chromatogram_picture.h"
#include "drawing/distillation_picture.h"
#include "distil/distil_words.h"
#include "report/json_cells.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace cospot {

namespace {

using html::escaped;

std::optional<double> optional_in(const Json &object, const char *field) {
    return object.at(field).is_null() ? std::nullopt : std::optional(number_in(object, field));
}

/// The object of a kind, if the command made one.
const Json *find_kind(const Json &results, std::string_view kind) {
    const auto found = std::find_if(results.begin(), results.end(),
                                    [&](const Json &object) { return object.at("kind") == kind; });
    return found == results.end() ? nullptr : &*found;
}

const Json *sample_of(const Json &results) {
    return find_kind(results, "distillation");
}

const Json *order_of(const Json &results) {
    return find_kind(results, "order by boiling point");
}

quantities::BoilingScale scale_of(const Json &sample) {
    quantities::BoilingScale scale;
    for (const Json &member : sample.at("ladder")) {
        scale.members.push_back({member.at("carbon").get<int>(), number_in(member, "tR"),
                                 number_in(member, "celsius")});
    }
    scale.left_out = sample.at("ladder_left_out").get<std::vector<int>>();
    return scale;
}

/// What a peak's boiling point is, or why it has none.
std::string boiling_words(const Json &peak) {
    return peak.at("solvent").get<bool>() ? "solvent, left out"
           : peak.at("celsius").is_null() ? text_in(peak, "position")
                                          : fmt::format("{:.1f} °C", number_in(peak, "celsius"));
}

std::string chromatogram(const Json &sample) {
    std::vector<DrawnPeak> peaks;
    const Json &all = sample.at("peaks");
    for (std::size_t i = 0; i < all.size(); ++i) {
        const Json &peak = all[i];
        if (peak.at("solvent").get<bool>()) {
            continue;
        }
        peaks.push_back(
            {.key = std::to_string(i + 1),
             .title = text_in(peak, "peak") + ": " + boiling_words(peak),
             .retention_time_min = number_in(peak, "tR"),
             .area = number_in(peak, "area"),
             .height = optional_in(peak, "height"),
             .start_min = optional_in(peak, "start"),
             .end_min = optional_in(peak, "end"),
             .width_half_min = optional_in(peak, "width_half"),
             .kind = peak.at("celsius").is_null() ? PeakKind::not_compared : PeakKind::listed});
    }
    constexpr double most_ticks = 14;
    UpperAxis upper{"boiling point, °C",
                    boiling_ticks(scale_of(sample), peaks.front().retention_time_min,
                                  peaks.back().retention_time_min, most_ticks)};
    const ChromatogramPicture picture =
        chromatogram_picture(peaks, "Chromatogram of " + text_in(sample, "sample"), upper);
    std::string caption = picture.caption + " Filled: on the scale; empty: off it.";
    if (peaks.size() < all.size()) {
        caption += fmt::format(" Not drawn: {} of the solvent.", all.size() - peaks.size());
    }
    return html::figure_html(picture.svg, escaped(caption));
}

std::string peaks_table(const Json &sample) {
    html::Table table;
    table.caption = "Peaks in the order in which they leave";
    table.columns = {
        {"No.", true}, {"Peak"}, {"tR, min", true}, {"Area %", true}, {"Boiling point, °C", true},
        {"Remarks"}};
    table.heading_column = 1;
    table.is_sortable = true;
    const Json &peaks = sample.at("peaks");
    for (std::size_t i = 0; i < peaks.size(); ++i) {
        const Json &peak = peaks[i];
        html::Row row;
        row.key = std::to_string(i + 1);
        row.cells = {{row.key, static_cast<double>(i + 1)},
                     {escaped(text_in(peak, "peak"))},
                     number_cell(peak.at("tR"), "{:.3f}"),
                     number_cell(peak.at("per_cent"), "{:.2f}"),
                     peak.at("solvent").get<bool>() ? html::Cell{}
                                                    : number_cell(peak.at("celsius"), "{:.1f}"),
                     {peak.at("solvent").get<bool>() || peak.at("celsius").is_null()
                          ? boiling_words(peak)
                          : ""}};
        table.rows.push_back(std::move(row));
    }
    return table_html(html::without_empty_columns(table));
}

/// The distillation as a curve beside its table.
std::string recovery_html(const Json &sample) {
    const Json &recovered = sample.at("recovered");
    html::Table table;
    table.caption = "Temperature at which so much of the area is recovered";
    table.columns = {{"Recovered, %", true}, {"Boiling point, °C", true}, {"Remarks"}};
    std::vector<DrawnRecovery> drawn;
    for (const Json &row : recovered) {
        const std::string key = fmt::format("{:g}", number_in(row, "per_cent"));
        const auto celsius = optional_in(row, "celsius");
        if (celsius) {
            drawn.push_back({key, number_in(row, "per_cent"), *celsius});
        }
        table.rows.push_back({{number_cell(row.at("per_cent"), "{:.1f}"),
                               number_cell(row.at("celsius"), "{:.1f}"),
                               {celsius ? "" : text_in(row, "position")}},
                              key});
    }
    std::string html = "<section data-scope>\n<h2>Distillation</h2>\n";
    if (drawn.empty()) {
        return html + "<p>No stated per cent of the area is recovered on the scale.</p>\n"
                      "</section>\n";
    }
    const double before = number_in(sample, "before_per_cent");
    const double behind = number_in(sample, "behind_per_cent");
    std::string caption(spread_words(sample.at("uses_start_and_end").get<bool>()));
    caption += before + behind > 0.0 ? " Hatched: area off the ladder." : "";
    html += "<div class=\"beside\">\n" +
            html::figure_html(
                distillation_picture(drawn, before, behind,
                                     "Distillation curve of " + text_in(sample, "sample")),
                escaped(caption)) +
            table_html(html::without_empty_columns(table)) + "</div>\n";
    return html + "</section>\n";
}

std::string sample_html(const Json &sample) {
    const quantities::BoilingScale scale = scale_of(sample);
    std::vector<std::string> notes{
        fmt::format("Ladder C{} to C{}, {:g} to {:g} °C (ASTM D2887, from memory).",
                    scale.members.front().carbon, scale.members.back().carbon,
                    scale.members.front().celsius, scale.members.back().celsius)};
    for (const std::string &note : ladder_notes(scale)) {
        notes.push_back(note + ".");
    }
    return html::list_html("Look at this first",
                           off_scale_words(number_in(sample, "before_per_cent"),
                                           number_in(sample, "behind_per_cent"), scale),
                           "warnings") +
           recovery_html(sample) + "<section data-scope>\n<h2>Chromatogram</h2>\n" +
           chromatogram(sample) + peaks_table(sample) + "</section>\n" +
           html::list_html("The scale", notes, "notes");
}

std::string standing_badge(const Json &compound) {
    return compound.at("standing") == "usual"
               ? ""
               : "<span class=\"badge\">" + escaped(text_in(compound, "standing")) + "</span>";
}

std::string order_table(const Json &order) {
    const Json &compounds = order.at("compounds");
    const bool lists_all = compounds.size() <= kMostOrdered;
    html::Table table;
    table.caption = lists_all ? "In the order in which they leave"
                              : "Those that leave early or late, in the order in which they leave";
    table.columns = {{"Leaves as", true}, {"Expected as", true},  {"Compound"},
                     {"Index", true},     {"By index, °C", true}, {"From structure, °C", true},
                     {"Stands out"}};
    table.heading_column = 2;
    table.is_sortable = true;
    for (const Json &one : compounds) {
        if (!lists_all && one.at("standing") == "usual") {
            continue;
        }
        table.rows.push_back({{number_cell(one.at("place"), "{:.0f}"),
                               number_cell(one.at("expected_place"), "{:.0f}"),
                               {escaped(text_in(one, "compound"))},
                               number_cell(one.at("index"), "{:.1f}"),
                               number_cell(one.at("celsius_by_index"), "{:.0f}"),
                               {fmt::format("{:.0f} ± {:.0f}", number_in(one, "celsius_estimated"),
                                            number_in(one, "standard_error")),
                                number_in(one, "celsius_estimated")},
                               {standing_badge(one)}}});
    }
    return table.rows.empty() ? "" : table_html(html::without_empty_columns(table));
}

/// What the phase means; a warning where it makes the order fail.
std::string rule_html(const Json &order) {
    const auto rule = text_in(order, "rule");
    return order.at("polar") == true ? html::list_html("", {rule}, "warnings")
                                     : "<p>" + escaped(rule) + "</p>\n";
}

std::string order_html(const Json &order) {
    const Json &compounds = order.at("compounds");
    const auto standing_out =
        std::count_if(compounds.begin(), compounds.end(),
                      [](const Json &one) { return one.at("standing") != "usual"; });
    std::vector<std::string> notes{
        fmt::format("{} of {} pairs of {} compounds leave in the order of their boiling points "
                    "from structure.",
                    order.at("ordered_pairs").get<std::size_t>(),
                    order.at("pairs").get<std::size_t>(), compounds.size()),
        fmt::format("{} of {} stand out: late, held longer than the boiling point says; early, let "
                    "go sooner.",
                    standing_out, compounds.size()),
        difference_words(number_in(order, "usual_difference"), number_in(order, "spread"))};
    if (const auto left_out = order.at("left_out").get<std::size_t>(); left_out > 0) {
        notes.push_back(fmt::format("{} left out, without boiling point from structure or with an "
                                    "index outside 500 to 4400.",
                                    left_out));
    }
    std::string phase = text_in(order, "stationary_phase");
    if (!phase.empty()) {
        phase = "<p>Stationary phase: " + escaped(phase) + ".</p>\n";
    }
    return "<h2>Order by boiling point on " + escaped(text_in(order, "system")) + "</h2>\n" +
           phase + rule_html(order) + order_table(order) + html::list_html("", notes, "notes");
}

/// The cautions of all objects, each once.
std::string cautions_html(const Json &results) {
    std::vector<std::string> cautions;
    for (const Json &object : results) {
        for (const Json &caution : object.at("cautions")) {
            const auto text = caution.get<std::string>();
            if (std::find(cautions.begin(), cautions.end(), text) == cautions.end()) {
                cautions.push_back(text);
            }
        }
    }
    return "<h2>What to mind</h2>\n" + html::list_html("", cautions, "warnings");
}

PageContent distil_page(const Report &report) {
    const Json *sample = sample_of(report.results);
    const Json *order = order_of(report.results);
    PageContent content;
    content.title = sample != nullptr ? "Simulated distillation of " + text_in(*sample, "sample")
                                      : "Do compounds leave in the order of their boiling points?";
    content.lead = sample != nullptr
                       ? "Peaks on the boiling points of the n-alkanes run with them; area per "
                         "cent is not mass per cent."
                       : "What the library holds of a system beside boiling points from structure.";
    content.body = (sample != nullptr ? sample_html(*sample) : "") +
                   (order != nullptr ? order_html(*order) : "") + cautions_html(report.results);
    return content;
}

FlatTable distil_flat_table(const Json &results) {
    const Json *sample = sample_of(results);
    FlatTable table;
    table.columns = sample != nullptr
                        ? std::vector<std::string>{"peak",    "tR",       "area",   "per_cent",
                                                   "celsius", "position", "solvent"}
                        : std::vector<std::string>{
                              "compound",       "index", "celsius_by_index", "celsius_estimated",
                              "standard_error", "place", "expected_place",   "standing"};
    for (const Json &object :
         sample != nullptr ? sample->at("peaks") : order_of(results)->at("compounds")) {
        std::vector<Json> row;
        for (const std::string &column : table.columns) {
            row.push_back(object.at(column));
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

} // namespace

const ReportDrawing &distil_report() {
    static constexpr ReportDrawing drawing{distil_page, distil_flat_table};
    return drawing;
}

} // namespace cospot

#include "advise/advise_report.h"

#include "document/html.h"
#include "document/probability_text.h"
#include "drawing/probability_bars.h"
#include "drawing/share_bar.h"
#include "report/json_cells.h"
#include "advise/system_advice_html.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace cospot {

namespace {

using html::escaped;

/// The advice on one sample.
struct SampleObjects {
    std::string name;
    std::vector<const Json *> features;
    const Json *together = nullptr; ///< only where there are several features
};

/// The objects, sample by sample: features come first, what holds for all of them last.
std::vector<SampleObjects> by_sample(const Json &results) {
    std::vector<SampleObjects> samples;
    for (const Json &object : results) {
        const auto name = object.at("sample").get<std::string>();
        if (samples.empty() || samples.back().name != name || samples.back().together != nullptr) {
            samples.push_back({name, {}, nullptr});
        }
        if (object.at("kind") == "sample") {
            samples.back().together = &object;
        } else {
            samples.back().features.push_back(&object);
        }
    }
    return samples;
}

double most_bits(const Json &measurements) {
    double most = 0.0;
    for (const Json &one : measurements) {
        most = std::max(most, one.at("bits").get<double>());
    }
    return most;
}

/// `open_bits`: what a full bar stands for.
html::Table measurements_table(const Json &measurements, double open_bits, const char *bar) {
    html::Table table;
    table.columns = {{"Measurement"},  {"Kind"},          {bar},
                     {"Bits", true},   {"Effort", true},  {"Bits per effort", true},
                     {"Leaves", true}, {"Known of", true}};
    table.is_sortable = true;
    for (const Json &one : measurements) {
        const auto bits = one.at("bits").get<double>();
        table.rows.push_back({{{escaped(one.at("measurement").get<std::string>())},
                               {escaped(one.at("kind").get<std::string>())},
                               {share_bar(open_bits > 0.0 ? bits / open_bits : 0.0,
                                          fmt::format("{:.2f} of {:.2f} bits", bits, open_bits)),
                                bits},
                               number_cell(one.at("bits"), "{:.2f}"),
                               number_cell(one.at("effort"), "{:g}"),
                               number_cell(one.at("bits_per_effort"), "{:.2f}"),
                               number_cell(one.at("leaves"), "{:.1f}"),
                               number_cell(one.at("known"), "{:.0f}")}});
    }
    return table;
}

/// Probabilities of what is open, as a bar and in words.
std::string open_html(const Json &feature) {
    std::vector<ProbabilityShare> shares;
    std::string remaining;
    for (const Json &candidate : feature.at("candidates")) {
        const auto name = candidate.at("compound").get<std::string>();
        const auto probability = candidate.at("probability").get<double>();
        shares.push_back({name, probability});
        if (shares.size() <= feature.at("remaining").get<std::size_t>()) {
            remaining += fmt::format("{}{} {}", remaining.empty() ? "" : ", ", escaped(name),
                                     probability_text(probability));
        }
    }
    const auto unlisted = feature.at("unlisted").get<double>();
    return fmt::format("<p>{:.2f} bits are open; {} of {} candidates remain in the 95 % set{}{}; "
                       "unlisted {}.</p>\n",
                       feature.at("open_bits").get<double>(),
                       feature.at("remaining").get<std::size_t>(),
                       feature.at("considered").get<std::size_t>(), remaining.empty() ? "" : ": ",
                       remaining, probability_text(unlisted)) +
           probability_bar(shares, feature.at("other").get<double>(), unlisted,
                           "What " + feature.at("feature").get<std::string>() + " may be");
}

std::string feature_html(const Json &feature) {
    std::string html =
        "<article>\n<h3>Feature " + escaped(feature.at("feature").get<std::string>()) + "</h3>\n";
    const Json &measurements = feature.at("measurements");
    if (feature.at("considered") == 0) {
        return html + "<p>Nothing to compare with: no advice.</p>\n</article>\n";
    }
    html += open_html(feature);
    if (measurements.empty()) {
        return html + "<p>No further measurement that the library knows of would tell "
                      "more.</p>\n</article>\n";
    }
    html::Table table =
        measurements_table(measurements, feature.at("open_bits").get<double>(), "Of what is open");
    table.caption = fmt::format("What to measure next for {}, the most bits for the effort first; "
                                "a full bar would settle it",
                                feature.at("feature").get<std::string>());
    return html + table_html(table) + "</article>\n";
}

std::string together_html(const Json &sample) {
    const Json &measurements = sample.at("measurements");
    if (measurements.empty()) {
        return {};
    }
    html::Table table =
        measurements_table(measurements, most_bits(measurements), "Beside the best");
    table.caption = "What tells about all features at once: bits, compounds left and known "
                    "candidates are sums over the features";
    return table_html(table);
}

bool is_about_systems(const Json &results) {
    return !results.empty() && results.front().at("kind") == "systems";
}

PageContent advise_page(const Report &report) {
    const std::string notes =
        "<h2>How to read this</h2>\n" + html::list_html("", report.notes, "notes");
    if (is_about_systems(report.results)) {
        const Json &advice = report.results.front();
        return {"Which systems tell compounds apart",
                fmt::format("{} compounds of the library, and the systems on which it holds them.",
                            advice.at("compounds").size()),
                system_advice_html(advice) + notes};
    }
    std::string body;
    std::size_t features = 0;
    for (const SampleObjects &sample : by_sample(report.results)) {
        body += "<h2>" + escaped(sample.name.empty() ? "Sample" : sample.name) + "</h2>\n";
        body += sample.together != nullptr ? together_html(*sample.together) : "";
        for (const Json *feature : sample.features) {
            body += feature_html(*feature);
            ++features;
        }
    }
    return {"What to measure next",
            fmt::format("{} feature{} whose identity is open, and what each further measurement is "
                        "expected to tell.",
                        features, features == 1 ? "" : "s"),
            body + notes};
}

FlatTable sets_table(const Json &advice) {
    FlatTable table{{"list", "systems", "count", "discriminating_power", "mean_list_length"}, {}};
    for (const char *list : {"sets", "alone"}) {
        for (const Json &set : advice.at(list)) {
            std::string systems;
            for (const Json &system : set.at("systems")) {
                systems += (systems.empty() ? "" : ";") + system.get<std::string>();
            }
            table.rows.push_back({list, systems, set.at("systems").size(),
                                  set.at("discriminating_power"), set.at("mean_list_length")});
        }
    }
    return table;
}

/// One row a measurement, or one row a set of systems.
FlatTable advise_flat_table(const Json &results) {
    if (is_about_systems(results)) {
        return sets_table(results.front());
    }
    FlatTable table{{"sample", "feature", "measurement", "kind", "known", "bits", "leaves",
                     "effort", "bits_per_effort"},
                    {}};
    for (const Json &object : results) {
        for (const Json &one : object.at("measurements")) {
            std::vector<Json> row{object.at("sample"), object.value("feature", Json(nullptr))};
            for (std::size_t i = row.size(); i < table.columns.size(); ++i) {
                row.push_back(one.at(table.columns[i]));
            }
            table.rows.push_back(std::move(row));
        }
    }
    return table;
}

} // namespace

const ReportDrawing &advise_report() {
    static constexpr ReportDrawing drawing{advise_page, advise_flat_table};
    return drawing;
}

} // namespace cospot

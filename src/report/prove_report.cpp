#include "report/prove_report.h"

#include "document/html.h"
#include "drawing/reliability_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <vector>

namespace cospot {

namespace {

using html::escaped;

std::string technique_words(const std::string &technique) {
    const std::map<std::string, std::string> words{{"tlc", "Thin-layer chromatography"},
                                                   {"paper", "Paper chromatography"},
                                                   {"column", "Column chromatography"},
                                                   {"hplc", "Liquid chromatography (HPLC)"},
                                                   {"gc", "Gas chromatography"}};
    return words.at(technique);
}

/// "Gas chromatography: a new day, features on one system"
std::string subject_of(const Json &proof) {
    return fmt::format("{}: {}", technique_words(proof.at("technique").get<std::string>()),
                       proof.at("asks").get<std::string>());
}

std::vector<DrawnBin> bins_of(const Json &reliability) {
    std::vector<DrawnBin> bins;
    for (const Json &bin : reliability.at("reliability")) {
        bins.push_back({bin.at("stated").get<double>(), bin.at("right").get<double>(),
                        bin.at("n").get<std::size_t>()});
    }
    return bins;
}

/// Bins are tenths of the stated probability.
std::size_t tenth_of(const DrawnBin &bin) {
    return std::min<std::size_t>(9, static_cast<std::size_t>(bin.stated * 10));
}

html::Cell percent(double share) {
    return {fmt::format("{:.1f}", 100 * share), share};
}

void add_cells(html::Row &row, const std::map<std::size_t, DrawnBin> &bins, std::size_t tenth) {
    const auto bin = bins.find(tenth);
    if (bin == bins.end()) {
        row.cells.insert(row.cells.end(), 3, html::Cell{});
        return;
    }
    row.cells.push_back(percent(bin->second.stated));
    row.cells.push_back(percent(bin->second.right));
    row.cells.push_back(
        {std::to_string(bin->second.count), static_cast<double>(bin->second.count)});
}

std::map<std::size_t, DrawnBin> by_tenth(const Json &reliability) {
    std::map<std::size_t, DrawnBin> bins;
    for (const DrawnBin &bin : bins_of(reliability)) {
        bins[tenth_of(bin)] = bin;
    }
    return bins;
}

std::string bins_table(const Json &proof) {
    html::Table table;
    table.caption = "What was stated, and how often it was right, %";
    table.columns = {{"From–to"},         {"Stated", true}, {"Right", true}, {"n", true},
                     {"Corrected", true}, {"Right", true},  {"n", true}};
    const auto before = by_tenth(proof.at("as_stated"));
    const auto after = by_tenth(proof.at("corrected"));
    for (std::size_t tenth = 0; tenth < 10; ++tenth) {
        if (before.contains(tenth) || after.contains(tenth)) {
            html::Row row{{{fmt::format("{}–{}", 10 * tenth, 10 * (tenth + 1))}}};
            add_cells(row, before, tenth);
            add_cells(row, after, tenth);
            table.rows.push_back(std::move(row));
        }
    }
    return table_html(table);
}

std::string measures_table(const Json &proof) {
    html::Table table;
    table.caption = "Measures over all questions";
    table.columns = {{"Measure"}, {"As stated", true}, {"Corrected", true}};
    const auto add = [&](const std::string &words, const Json &of, const char *field) {
        html::Row row{{{words}}};
        for (const char *which : {"as_stated", "corrected"}) {
            row.cells.push_back({fmt::format("{:.3f}", of.at(which).at(field).get<double>())});
        }
        table.rows.push_back(std::move(row));
    };
    add("Calibration error", proof, "calibration_error");
    add("Log loss", proof, "log_loss");
    add("Candidate sets of 95 % that hold the truth", proof, "set_coverage");
    for (const Json &one : proof.at("by_basis")) {
        add(fmt::format("… where it is {}", one.at("basis").get<std::string>()), one,
            "set_coverage");
    }
    add("Compounds in a set, mean", proof, "set_length");
    return table_html(table);
}

/// The verdicts on compounds of each basis, on absent ones and on all statements.
std::string verdicts_html(const Json &proof) {
    std::string items;
    const auto add = [&](const Json &of) {
        items += fmt::format("<li>{}</li>\n", escaped(of.at("verdict").get<std::string>()));
    };
    for (const Json &one : proof.at("by_basis")) {
        add(one);
    }
    add(proof.at("absent_compounds"));
    return "<ul>\n" + items + "</ul>\n";
}

std::string proof_html(const Json &proof) {
    std::string html =
        fmt::format("<h2>{}</h2>\n<p class=\"verdict\">{}</p>\n{}<p>{}</p>\n",
                    escaped(subject_of(proof)), escaped(proof.at("verdict").get<std::string>()),
                    verdicts_html(proof), escaped(proof.at("correction").get<std::string>()));
    html += fmt::format(
        "<p>{} {} values, {} of them of compounds left out altogether. The first "
        "candidate was right for {:.0f} % of the others.</p>\n",
        escaped(proof.at("left_out").get<std::string>()), proof.at("questions").get<std::size_t>(),
        proof.at("absent").get<std::size_t>(), 100 * proof.at("first_right").get<double>());
    html += "<div class=\"beside\">\n" +
            html::figure_html(
                reliability_picture(bins_of(proof.at("as_stated")), bins_of(proof.at("corrected")),
                                    "Reliability, " + subject_of(proof)),
                "Rings: as stated. Filled squares: after the correction, with two standard errors "
                "of the "
                "share. On the diagonal, what is called 70 % probable is right 70 times in 100; "
                "below it, "
                "less often. The bars (on a square-root scale) count the corrected statements.");
    return html + bins_table(proof) + "</div>\n" + measures_table(proof);
}

PageContent prove_page(const Report &report) {
    std::string body;
    for (const Json &proof : report.results) {
        body += proof_html(proof);
    }
    if (report.results.empty()) {
        body = "<p class=\"verdict\">Nothing to prove: no technique has 50 values that could be "
               "left out and asked for.</p>\n";
    } else {
        body += "<p>What this proves holds for samples like the library’s own standards: another "
                "bottle, column or laboratory scatters more.</p>\n";
    }
    return {"How far this library can be trusted",
            "Its own values, left out and asked for: how often is right what it calls probable?",
            body};
}

void add_rows(FlatTable &table, const Json &proof, const char *which) {
    for (const Json &bin : proof.at(which).at("reliability")) {
        table.rows.push_back({proof.at("technique"), proof.at("several_systems"),
                              proof.at("question"), proof.at("systems"), which, bin.at("stated"),
                              bin.at("right"), bin.at("n")});
    }
}

/// One row a bin.
FlatTable prove_flat_table(const Json &results) {
    FlatTable table{{"technique", "several_systems", "question", "systems", "probabilities",
                     "stated", "right", "n"},
                    {}};
    for (const Json &proof : results) {
        add_rows(table, proof, "as_stated");
        add_rows(table, proof, "corrected");
    }
    return table;
}

} // namespace

const ReportDrawing &prove_report() {
    static constexpr ReportDrawing drawing{prove_page, prove_flat_table};
    return drawing;
}

} // namespace cospot

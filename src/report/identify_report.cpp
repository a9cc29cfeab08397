#include "report/identify_report.h"

#include "document/html.h"
#include "document/probability_text.h"
#include "document/structure_gallery.h"
#include "drawing/probability_bars.h"
#include "report/identify_overview.h"
#include "report/identify_pictures.h"
#include "report/identify_result.h"
#include "report/probability_cell.h"
#include "shared/quantity.h"
#include "shared/value_with_spread.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>
#include <vector>

namespace cospot {

namespace {

using html::escaped;

/// Candidates below this are counted, not listed.
constexpr double kWorthListing = 0.01;
constexpr std::size_t kMostStructures = 3; ///< a feature

bool is_worth_listing(const Json &candidate) {
    return candidate.at("probability").get<double>() >= kWorthListing || candidate.at("rank") == 1;
}

/// The proposals that are worth a line: those that the text lists.
std::vector<Proposal> listed_proposals(const Json &result) {
    std::vector<Proposal> proposals = proposals_of(result);
    proposals.erase(std::remove_if(proposals.begin(), proposals.end(),
                                   [](const Proposal &one) {
                                       return !is_unlisted(one) && one.first > 0 &&
                                              one.probability < kWorthListing;
                                   }),
                    proposals.end());
    return proposals;
}

/// What all those share that are not among the proposals.
double rest_of(const std::vector<Proposal> &proposals) {
    double rest = 1.0;
    for (const Proposal &proposal : proposals) {
        rest -= proposal.probability;
    }
    return std::max(0.0, rest);
}

std::string bar_of(const Json &result) {
    const auto proposals = listed_proposals(result);
    std::vector<ProbabilityShare> shares;
    for (const Proposal &proposal : proposals) {
        if (!is_unlisted(proposal)) {
            shares.push_back({name_of(proposal), proposal.probability});
        }
    }
    return probability_bar(shares, rest_of(proposals), result.at("unlisted").get<double>(),
                           "What " + feature_name(result) + " may be");
}

std::string deviation_text(const Json &comparison) {
    const double deviation = comparison.at("deviation").get<double>();
    const auto quantity = quantity_from_text(comparison.at("quantity").get<std::string>()).value();
    return (deviation < 0 ? "−" : "+") +
           shown_beside(quantity, std::abs(deviation), comparison.at("spread").get<double>());
}

/// A candidate with how it compares; `probability` is that of its proposal.
html::Row candidate_row(const Json &candidate, html::Cell probability, const std::string &name) {
    html::Row row;
    std::string systems;
    std::string basis;
    std::string expected;
    std::string deviation;
    for (const Json &comparison : candidate.at("systems")) {
        const char *next = systems.empty() ? "" : "<br>";
        systems += next + escaped(comparison.at("system").get<std::string>());
        basis += next + escaped(comparison.at("basis").get<std::string>());
        expected += next + escaped(shown_with_spread(comparison.at("quantity"),
                                                     comparison.at("expected").get<double>(),
                                                     comparison.at("spread").get<double>()));
        deviation += next + escaped(deviation_text(comparison));
    }
    row.cells = {
        std::move(probability), {escaped(name)}, {basis}, {systems}, {expected}, {deviation}};
    return row;
}

/// One row a name; those that cannot be told apart share the probability in the first row.
void add_rows(html::Table &table, const Proposal &proposal, const Json &candidates) {
    for (std::size_t i = 0; i < proposal.names.size(); ++i) {
        table.rows.push_back(
            candidate_row(candidates[proposal.first + i],
                          i == 0 ? probability_cell(proposal.probability) : html::Cell{},
                          i == 0 ? proposal.names[i] : "or " + proposal.names[i]));
    }
    if (proposal.more > 0) {
        table.rows.push_back({{{}, {fmt::format("or {} more", proposal.more)}, {}, {}, {}, {}}});
    }
}

std::string candidate_table(const Json &result) {
    html::Table table;
    table.caption = "Candidates for " + feature_name(result);
    table.columns = {{"Probability", true}, {"Candidate"},   {"Basis"}, {"System"},
                     {"Expected", true},    {"Off by", true}};
    table.heading_column = 1;
    const auto add = [&](double probability, const char *what) {
        table.rows.push_back({{probability_cell(probability), {what}, {}, {}, {}, {}}});
    };
    const auto proposals = listed_proposals(result);
    for (const Proposal &proposal : proposals) {
        if (is_unlisted(proposal)) {
            add(proposal.probability, "unlisted: none of the library’s compounds");
        } else {
            add_rows(table, proposal, result.at("candidates"));
        }
    }
    if (const double rest = rest_of(proposals); rest >= kWorthListing / 2) {
        add(rest, "all other candidates together");
    }
    return table_html(table);
}

/// Which rows of the table share a probability.
std::string groups_html(const Json &result) {
    Json sentences = Json::array();
    for (const Proposal &proposal : listed_proposals(result)) {
        if (proposal.names.size() + proposal.more > 1) {
            sentences.push_back(fmt::format("{}: {} together", name_of(proposal),
                                            probability_text(proposal.probability)));
        }
    }
    return html::list_html("Cannot be told apart here", sentences, "groups");
}

/// "Why a has 0.29 of its group's 0.49"
std::string why_heading(const Json &result) {
    const auto proposals = proposals_of(result);
    const auto first = std::find_if_not(proposals.begin(), proposals.end(), is_unlisted);
    const double own = result.at("candidates").front().at("probability").get<double>();
    std::string text = fmt::format("Why {} has {}", first->names.front(), probability_text(own));
    if (first->names.size() + first->more > 1) {
        text += " of its group’s " + probability_text(first->probability);
    }
    return text;
}

/// What was seen of the feature beside its retention.
std::string evidence_html(const Json &result) {
    std::string words;
    for (const Json &evidence : result.at("evidence")) {
        const auto kind = evidence.at("kind").get<std::string>();
        words += words.empty() ? "Also seen: " : ", ";
        if (kind == "uv254") {
            words += evidence.at("value").get<bool>() ? "dark at 254 nm" : "not dark at 254 nm";
        } else if (kind == "stain") {
            words += (evidence.at("value").get<bool>() ? "stained by " : "not stained by ") +
                     evidence.at("stain").get<std::string>();
        } else if (kind == "molar_mass") {
            words +=
                fmt::format("molar mass {:.10g} ± {:g} g/mol", evidence.at("value").get<double>(),
                            evidence.at("uncertainty").get<double>());
        } else {
            words += "formula " + evidence.at("value").get<std::string>();
        }
    }
    return words.empty() ? words : "<p>" + escaped(words) + "</p>\n";
}

/// The shortest list that is meant to hold the truth.
std::string set_html(const Json &result) {
    std::string names;
    for (const Json &name : result.at("set")) {
        names += (names.empty() ? "" : ", ") + name.get<std::string>();
    }
    return names.empty() ? names
                         : "<p><i>Candidate set</i>, meant to hold the compound 95 times in 100: " +
                               escaped(names) + "</p>\n";
}

/// How the feature lies beside the standards of its run, in words.
std::vector<std::string> standards_of(const Json &result) {
    std::vector<std::string> words;
    for (const Json &standard : result.at("standards")) {
        words.push_back(standard.at("words").get<std::string>());
    }
    for (const Json &cospot : result.at("cospots")) {
        words.push_back(cospot.at("words").get<std::string>());
    }
    return words;
}

std::string feature_html(const Json &result, std::size_t position) {
    std::string html =
        fmt::format("<article id=\"feature-{}\">\n<h3>{}. {}</h3>\n<p>{}</p>\n", position, position,
                    escaped(feature_name(result)), escaped(readings_of(result)));
    html += evidence_html(result) + html::list_html("Warnings", result.at("warnings"), "warnings");
    if (!result.at("candidates").empty()) {
        html += bar_of(result) + candidate_table(result) + groups_html(result) + set_html(result);
        html += html::list_html("Beside the standards of the run", standards_of(result), "because");
        const Json &first = result.at("candidates").front();
        html += html::list_html(why_heading(result), first.at("because"), "because");
        html += html::list_html("What to measure next", result.at("next"), "next");
    }
    return html + fmt::format("<p class=\"level\">Level of identification: {}.</p>\n</article>\n",
                              escaped(result.at("level").get<std::string>()));
}

std::string structures(const Json &results) {
    std::vector<ShownCompound> compounds;
    std::vector<std::string> numbers_of;
    for (std::size_t i = 0; i < results.size(); ++i) {
        const Json &candidates = results[i].at("candidates");
        for (std::size_t c = 0; c < std::min(kMostStructures, candidates.size()); ++c) {
            const Json &candidate = candidates[c];
            const auto smiles = candidate.at("smiles").get<std::string>();
            if (!is_worth_listing(candidate) || smiles.empty()) {
                continue;
            }
            auto known = std::find_if(compounds.begin(), compounds.end(),
                                      [&](const auto &one) { return one.smiles == smiles; });
            if (known == compounds.end()) {
                compounds.push_back({candidate.at("compound").get<std::string>(), smiles, "for "});
                known = compounds.end() - 1;
            } else {
                known->note += ", ";
            }
            known->note += std::to_string(i + 1);
        }
    }
    const std::string gallery = structure_gallery(compounds);
    return gallery.empty() ? gallery
                           : "<h2>Structures</h2>\n<p>Of the first candidates, with the numbers "
                             "of the features that they are proposed for.</p>\n" +
                                 gallery;
}

/// "15 features of sludge" or "7 features of 3 samples"
std::string lead(const Json &results) {
    std::set<std::string> samples;
    for (const Json &result : results) {
        samples.insert(result.at("sample").get<std::string>());
    }
    const std::string of =
        samples.size() == 1 ? *samples.begin() : fmt::format("{} samples", samples.size());
    return fmt::format("{} feature{}{}, compared with the library.", results.size(),
                       results.size() == 1 ? "" : "s", of.empty() ? "" : " of " + of);
}

PageContent identify_page(const Report &report) {
    std::string body = identify_pictures(report.results) + identify_overview(report.results);
    body += "<h2>What holds for all of them</h2>\n" + html::list_html("", report.notes, "notes");
    body += "<h2>One by one</h2>\n";
    for (std::size_t i = 0; i < report.results.size(); ++i) {
        body += feature_html(report.results[i], i + 1);
    }
    return {"Which compounds these may be", lead(report.results),
            body + structures(report.results)};
}

std::vector<Json> table_row(const Json &result, const Json &rank, const std::string &name,
                            double probability) {
    const Json &observations = result.at("observations");
    const auto sole = [&](const char *field) {
        return observations.size() == 1 ? observations[0].at(field) : Json(nullptr);
    };
    return {result.at("sample"),
            result.at("feature"),
            result.value("tR", Json(nullptr)),
            sole("system"),
            sole("quantity"),
            sole("value"),
            sole("uncertainty"),
            rank,
            name,
            probability};
}

/// One row a candidate, then one for `unlisted`; values of features seen on one system only.
FlatTable identify_flat_table(const Json &results) {
    FlatTable table{{"sample", "feature", "tR", "system", "quantity", "value", "uncertainty",
                     "rank", "compound", "probability", "inchikey", "smiles", "basis", "expected",
                     "spread", "deviation"},
                    {}};
    for (const Json &result : results) {
        for (const Json &candidate : result.at("candidates")) {
            table.rows.push_back(table_row(result, candidate.at("rank"),
                                           candidate.at("compound").get<std::string>(),
                                           candidate.at("probability").get<double>()));
            for (const char *field :
                 {"inchikey", "smiles", "basis", "expected", "spread", "deviation"}) {
                table.rows.back().push_back(candidate.at(field));
            }
        }
        table.rows.push_back(
            table_row(result, nullptr, "unlisted", result.at("unlisted").get<double>()));
        table.rows.back().resize(table.columns.size());
    }
    return table;
}

} // namespace

const ReportDrawing &identify_report() {
    static constexpr ReportDrawing drawing{identify_page, identify_flat_table};
    return drawing;
}

} // namespace cospot

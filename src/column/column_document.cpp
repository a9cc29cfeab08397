#include "column/column_document.h"

#include "column/column_advice.h"
#include "column/column_model.h"
#include "column/column_rack.h"
#include "column/column_words.h"
#include "document/caution.h"
#include "document/cells.h"
#include "model/matcher/basis_text.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace cospot {

namespace {

using fractions::ColumnPlan;
using fractions::ExpectedBand;
using fractions::PlannedBand;
using fractions::PlanWarning;

std::string ml_range(double low_ml, double high_ml) {
    return fmt::format("{:.0f}–{:.0f}", low_ml, high_ml);
}

std::string band_fractions(const PlannedBand &band) {
    return fractions_words(band.first_fraction, band.last_fraction);
}

/// "16–18, 21": runs of neighbouring numbers.
std::string number_runs(const std::vector<int> &numbers) {
    std::string text;
    for (std::size_t i = 0; i < numbers.size();) {
        std::size_t last = i;
        while (last + 1 < numbers.size() && numbers[last + 1] == numbers[last] + 1) {
            ++last;
        }
        text += (text.empty() ? "" : ", ") + fractions_words(numbers[i], numbers[last]);
        i = last + 1;
    }
    return text;
}

std::string target_verdict(const ColumnResult &result) {
    const ColumnPlan &plan = result.plan;
    const std::string &name = plan.compounds[*plan.target].name;
    const PlannedBand &band = plan.bands[*plan.target];
    if (!band.column_volumes) {
        return fmt::format("No volume can be given for {}.", name);
    }
    if (!band.expected) {
        return fmt::format("Expected after {:.2f} column volumes: {}.", *band.column_volumes, name);
    }
    const ExpectedBand &expected = *band.expected;
    const std::string ml = ml_range(expected.start_ml, expected.end_ml) + " mL";
    const std::string in_fractions = band_fractions(band);
    if (in_fractions.empty()) {
        return fmt::format("Expected at {}: {}; in 95 of 100 runs within {} mL.", ml, name,
                           ml_range(expected.whole.low_ml, expected.whole.high_ml));
    }
    if (band.last_fraction == 0) {
        return fmt::format("Expected at {}, in the volume that is discarded: {}.", ml, name);
    }
    std::string text = fmt::format("Collect fractions {} for {} ({})", in_fractions, name, ml);
    const std::string in_95 = fractions_words(band.first_in_95, band.last_in_95);
    text += in_95.empty() ? "." : fmt::format("; in 95 of 100 runs it lies within {}.", in_95);
    const std::string alone = number_runs(fractions_of_target_alone(plan));
    if (alone.empty()) {
        text += " None of them is expected to hold it alone.";
    } else if (alone != in_fractions) {
        text += fmt::format(" It is expected alone in {}.", alone);
    }
    return text;
}

/// Without a target: when the column may be stopped.
std::string column_verdict(const ColumnResult &result) {
    const ColumnPlan &plan = result.plan;
    if (plan.target) {
        return target_verdict(result);
    }
    for (std::size_t i = plan.bands.size(); i-- > 0;) {
        if (const auto &expected = plan.bands[i].expected) {
            const std::string last =
                fractions_words(plan.bands[i].last_fraction, plan.bands[i].last_fraction);
            return fmt::format("The last band, {}, is expected to end at {:.0f} mL{}.",
                               plan.compounds[i].name, expected->end_ml,
                               last.empty() || last == "discarded" ? "" : ", in fraction " + last);
        }
    }
    return "Give the load or the size of a column for volumes and fractions.";
}

std::vector<std::string> plan_warnings(const ColumnResult &result) {
    std::vector<std::string> texts;
    for (const fractions::PlanFinding &finding : result.plan.findings) {
        texts.push_back(finding_text(finding, result));
    }
    return texts;
}

/// A compound that shares fractions with the target, or of which no volume is known.
bool needs_look(const ColumnPlan &plan, std::size_t compound) {
    return std::any_of(plan.findings.begin(), plan.findings.end(), [&](const auto &finding) {
        return finding.warning == PlanWarning::overlap && finding.compounds.back() == compound;
    });
}

Table rack_table(const ColumnResult &result) {
    const ColumnPlan &plan = result.plan;
    Table table{.label = "Compounds and their fractions",
                .columns = {{""},
                            {"Compound"},
                            {""},
                            {"Rf", true},
                            {"Fractions", true},
                            {"mL", true},
                            {"In 95 of 100 runs", true},
                            {"mg", true}},
                .heading_column = 1};
    for (std::size_t i = 0; i < plan.compounds.size(); ++i) {
        const fractions::PlateCompound &compound = plan.compounds[i];
        const PlannedBand &band = plan.bands[i];
        const auto &expected = band.expected;
        const bool is_target = plan.target == i;
        table.rows.push_back(
            {.cells = {{rack_letter(plan, i)},
                       {compound.name, {}, is_target ? Emphasis::strong : Emphasis::none},
                       {std::string(to_text(compound.role)),
                        {},
                        is_target ? Emphasis::badge : Emphasis::none},
                       {fmt::format("{:.2f}", compound.rf), compound.rf},
                       {band_fractions(band),
                        {},
                        needs_look(plan, i) ? Emphasis::alarm : Emphasis::none},
                       {expected ? ml_range(expected->start_ml, expected->end_ml) : ""},
                       {fractions_words(band.first_in_95, band.last_in_95)},
                       {compound.amount_mg ? fmt::format("{:.4g}", *compound.amount_mg) : ""}},
             .mark = std::to_string(i + 1)});
    }
    return table;
}

Section rack_section(const ColumnResult &result) {
    Section section{"The rack", "", {}, {rack_table(result)}};
    if (const auto rack = planned_rack(result)) {
        section.blocks.push_back(Figure{
            rack_picture(*rack, "The rack as the plan expects it"),
            "Letters: the compounds of the table; the target is filled. Hatched: several "
            "compounds. "
            "Broken outline: a compound is possible in 95 of 100 runs, but not expected.",
            rack_text(*rack) + "        letters as in the table, · possible in 95 of 100 runs\n"});
    } else if (result.plan.fraction_ml && result.plan.column) {
        section.blocks.push_back(Paragraph{"The rack is not drawn: it has no tube with a compound, "
                                           "or too many tubes.",
                                           Paragraph::Role::small});
    }
    return section;
}

std::optional<Section> volumes_section(const ColumnResult &result) {
    Table table{.label = "Where the bands leave, in mL",
                .columns = {{"Compound"},
                            {"Band, mL", true},
                            {"Middle, 95 %", true},
                            {"Whole band, 95 %", true},
                            {"Basis"}}};
    for (std::size_t i = 0; i < result.plan.bands.size(); ++i) {
        if (const auto &band = result.plan.bands[i].expected) {
            table.rows.push_back({{{result.plan.compounds[i].name},
                                   {ml_range(band->start_ml, band->end_ml), band->start_ml},
                                   {ml_range(band->middle.low_ml, band->middle.high_ml)},
                                   {ml_range(band->whole.low_ml, band->whole.high_ml)},
                                   {band_basis(result, i)}}});
        }
    }
    if (table.rows.empty()) {
        return std::nullopt;
    }
    return Section{"Volumes", "", {}, {std::move(table), List{"", interval_sentences(result)}}};
}

/// What the plate says: retention, and how well neighbours are resolved.
Section plate_section(const ColumnResult &result) {
    const ColumnPlan &plan = result.plan;
    Table table{.label = "Retention on the plate, and resolution of neighbours",
                .columns = {{"Compound"},
                            {"Rf", true},
                            {"9 of 10 values", true},
                            {"Basis"},
                            {"k", true},
                            {"CV", true},
                            {"CV to the next", true},
                            {"Resolution", true}}};
    for (std::size_t i = 0; i < plan.compounds.size(); ++i) {
        const auto cv = plan.bands[i].column_volumes;
        const auto known = result.expected.find(plan.compounds[i].name);
        const bool is_known = known != result.expected.end();
        const auto pair =
            std::find_if(plan.neighbours.begin(), plan.neighbours.end(),
                         [&](const fractions::Neighbours &one) { return one.first == i; });
        const bool is_last = pair == plan.neighbours.end();
        table.rows.push_back(
            {{{plan.compounds[i].name},
              number_cell(plan.compounds[i].rf, 2),
              {is_known ? fmt::format("{:.2f}–{:.2f}", known->second.low, known->second.high) : ""},
              {is_known ? std::string(to_text(known->second.basis)) : ""},
              number_cell(cv ? std::optional(*cv - 1.0) : std::nullopt, 2),
              number_cell(cv, 2),
              is_last ? Cell{} : number_cell(pair->column_volumes, 2),
              is_last ? Cell{} : number_cell(pair->resolution, 1)}});
    }
    return {
        "The plate",
        "",
        {},
        {std::move(table),
         Paragraph{"Resolution on the column, to the compound that leaves next: equal bands are "
                   "separated at 1.5 and touch at 1.0 (common practice).",
                   Paragraph::Role::small}}};
}

Table band_model_table(const ColumnResult &result) {
    Table table{.label = "What the bands are computed with",
                .columns = {{"Quantity"},
                            {"Unit"},
                            {"Value", true},
                            {"95 of 100 between", true},
                            {"Origin"},
                            {"Because"}}};
    for (const BandQuantity &row : band_model(result)) {
        table.rows.push_back(
            {{{row.quantity},
              {row.unit},
              {fmt::format("{:.3g}", row.value), row.value},
              {row.low ? fmt::format("{:.3g}–{:.3g}", *row.low, row.high.value()) : ""},
              {row.origin},
              {row.reason}}});
    }
    return table;
}

Section basis_section(const ColumnResult &result) {
    std::vector<std::string> notes = result.notes;
    const std::vector<std::string> assumptions = plan_assumptions(result);
    notes.insert(notes.end(), assumptions.begin(), assumptions.end());
    Section section{"What this rests on", "", {}, {List{"", std::move(notes)}}};
    if (result.plan.column) {
        section.blocks.push_back(Details{
            {Section{"What the bands are computed with", "", {}, {band_model_table(result)}}}});
    }
    return section;
}

Datum fraction_datum(const std::optional<int> &number) {
    return number ? Datum(static_cast<std::int64_t>(*number)) : Datum();
}

/// One row a compound, in the order in which they leave.
DataTable column_data(const ColumnResult &result) {
    DataTable data{{"compound",
                    "role",
                    "rf",
                    "rf_low",
                    "rf_high",
                    "basis",
                    "k",
                    "column_volumes",
                    "volume_mL",
                    "sigma_mL",
                    "start_mL",
                    "end_mL",
                    "middle_mL",
                    "middle_low_mL",
                    "middle_high_mL",
                    "whole_low_mL",
                    "whole_high_mL",
                    "volume_basis",
                    "first_fraction",
                    "last_fraction",
                    "first_fraction_95",
                    "last_fraction_95",
                    "amount_mg"}};
    for (std::size_t i = 0; i < result.plan.compounds.size(); ++i) {
        const fractions::PlateCompound &compound = result.plan.compounds[i];
        const PlannedBand &band = result.plan.bands[i];
        const auto known = result.expected.find(compound.name);
        const bool is_known = known != result.expected.end();
        std::vector<Datum> row{compound.name, std::string(to_text(compound.role)), compound.rf};
        row.push_back(is_known ? Datum(known->second.low) : Datum());
        row.push_back(is_known ? Datum(known->second.high) : Datum());
        row.push_back(is_known ? Datum(std::string(to_text(known->second.basis))) : Datum());
        row.push_back(band.column_volumes ? Datum(*band.column_volumes - 1.0) : Datum());
        row.push_back(datum_of(band.column_volumes));
        const auto add = [&](auto value_of) {
            row.push_back(band.expected ? Datum(value_of(*band.expected)) : Datum());
        };
        add([](const ExpectedBand &one) { return one.band.volume_ml; });
        add([](const ExpectedBand &one) { return one.band.sigma_ml; });
        add([](const ExpectedBand &one) { return one.start_ml; });
        add([](const ExpectedBand &one) { return one.end_ml; });
        add([](const ExpectedBand &one) { return one.middle_ml(); });
        add([](const ExpectedBand &one) { return one.middle.low_ml; });
        add([](const ExpectedBand &one) { return one.middle.high_ml; });
        add([](const ExpectedBand &one) { return one.whole.low_ml; });
        add([](const ExpectedBand &one) { return one.whole.high_ml; });
        row.push_back(band.expected ? Datum(band_basis(result, i)) : Datum());
        row.push_back(fraction_datum(band.first_fraction));
        row.push_back(fraction_datum(band.last_fraction));
        row.push_back(fraction_datum(band.first_in_95));
        row.push_back(fraction_datum(band.last_in_95));
        row.push_back(datum_of(compound.amount_mg));
        data.rows.push_back(std::move(row));
    }
    return data;
}

std::string column_title(const ColumnPlan &plan) {
    std::string title = plan.target ? "A silica column for " + plan.compounds[*plan.target].name
                                    : "A silica column";
    return title + (plan.load_mg ? fmt::format(", {:g} mg of sample", *plan.load_mg) : "");
}

} // namespace

Document column_document(const ColumnResult &result) {
    const std::string eluent =
        result.mobile_phase.empty() ? "" : ", one eluent throughout: " + result.mobile_phase;
    Document document{.title = column_title(result.plan),
                      .lead = counted(result.plan.compounds.size(), "compound") + " of a plate" +
                              eluent + '.',
                      .blocks = {Paragraph{column_verdict(result), Paragraph::Role::verdict}},
                      .cautions = {kColumnCautions.begin(), kColumnCautions.end()},
                      .data = column_data(result)};
    const std::vector<std::string> warnings = plan_warnings(result);
    if (!warnings.empty()) {
        document.blocks.push_back(Section{
            "Before the column is run", "", {}, {List{"", warnings, List::Role::warnings}}});
    }
    document.blocks.push_back(rack_section(result));
    if (auto section = volumes_section(result)) {
        document.blocks.push_back(std::move(*section));
    }
    document.blocks.push_back(plate_section(result));
    document.blocks.push_back(column_section(result));
    document.blocks.push_back(eluent_section(result));
    document.blocks.push_back(basis_section(result));
    return document;
}

} // namespace cospot

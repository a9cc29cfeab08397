#include "report/column_report.h"

#include "document/html.h"
#include "drawing/elution_picture.h"
#include "drawing/range_picture.h"
#include "fractions/column_plan.h"
#include "report/json_cells.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace cospot {

namespace {

using html::escaped;

/// The objects of a plan, by what they are about.
struct PlanObjects {
    std::vector<const Json *> compounds;
    const Json *column = nullptr; ///< the last one
};

PlanObjects plan_objects(const Json &results) {
    PlanObjects objects;
    for (const Json &object : results) {
        if (object.at("record") == "column") {
            objects.column = &object;
        } else {
            objects.compounds.push_back(&object);
        }
    }
    return objects;
}

std::string figure(const PlanObjects &objects) {
    std::vector<DrawnBand> bands;
    std::string missing;
    for (std::size_t i = 0; i < objects.compounds.size(); ++i) {
        const Json &compound = *objects.compounds[i];
        const auto name = compound.at("compound").get<std::string>();
        if (compound.at("band_cv").is_null()) {
            missing += (missing.empty() ? "" : ", ") + name;
        } else {
            bands.push_back({std::to_string(i + 1), name, compound.at("band_cv").get<double>(),
                             compound.at("band_sigma_cv").get<double>(),
                             compound.at("role") == "target"});
        }
    }
    if (bands.empty()) {
        return "<p>No picture: none of the compounds has a column volume.</p>\n";
    }
    const Json &column = *objects.column;
    const DrawnColumn drawn{number_or_none_in(column, "column_volume_mL"),
                            number_or_none_in(column, "fraction_mL"),
                            column.at("forerun_mL").get<double>()};
    std::string caption =
        "The run as the plan expects it, in column volumes (CV). All bands are drawn equally high: "
        "a plan says where they leave, not what a detector shows. The target is filled.";
    if (!missing.empty()) {
        caption += " Without a column volume, and not drawn: " + escaped(missing) + ".";
    }
    return html::figure_html(elution_picture(bands, drawn, "The expected run of the column"),
                             caption);
}

/// "forerun", "up to 4", "7-12"; nothing where it is not known.
std::string fractions_words(const Json &compound, const char *first_field, const char *last_field) {
    if (compound.at(first_field).is_null() || compound.at(last_field).is_null()) {
        return "";
    }
    const int first = compound.at(first_field).get<int>();
    const int last = compound.at(last_field).get<int>();
    return last == 0       ? "forerun"
           : first == 0    ? fmt::format("up to {}", last)
           : first == last ? fmt::format("{}", first)
                           : fmt::format("{}-{}", first, last);
}

/// "120–180", sorted by its low end.
html::Cell volumes_cell(const Json &compound, const char *low_field, const char *high_field) {
    const auto low = number_or_none_in(compound, low_field);
    if (!low) {
        return {};
    }
    return {fmt::format("{:.0f}–{:.0f}", *low, number_in(compound, high_field)), low};
}

html::Row compound_row(const Json &compound, std::size_t position) {
    html::Row row;
    row.key = std::to_string(position);
    html::Cell rf = number_cell(compound.at("rf"), "{:.2f}");
    std::string origin;
    if (!compound.at("basis").is_null()) {
        origin =
            fmt::format("{}, {:.2f}–{:.2f}", escaped(compound.at("basis").get<std::string>()),
                        compound.at("rf_low").get<double>(), compound.at("rf_high").get<double>());
    }
    row.cells = {{escaped(compound.at("compound").get<std::string>())},
                 {escaped(compound.at("role").get<std::string>())},
                 std::move(rf),
                 {origin},
                 number_cell(compound.at("k"), "{:.2f}"),
                 number_cell(compound.at("column_volumes"), "{:.2f}"),
                 volumes_cell(compound, "start_mL", "end_mL"),
                 {fractions_words(compound, "first_fraction", "last_fraction")},
                 number_cell(compound.at("amount_mg"), "{:.4g}")};
    return row;
}

std::string compounds_table(const PlanObjects &objects) {
    html::Table table;
    table.caption = "Compounds in the order in which they leave; volume and fractions of the "
                    "expected band, from start to end";
    table.columns = {{"Compound"},        {"Role"},     {"Rf", true}, {"Rf from the library"},
                     {"k", true},         {"CV", true}, {"mL", true}, {"Fractions"},
                     {"Amount, mg", true}};
    for (std::size_t i = 0; i < objects.compounds.size(); ++i) {
        table.rows.push_back(compound_row(*objects.compounds[i], i + 1));
    }
    return table_html(html::without_empty_columns(table));
}

/// How far a band may lie from where it is expected.
std::string intervals_table(const PlanObjects &objects) {
    double last = 0.0;
    for (const Json *compound : objects.compounds) {
        last = std::max(last, number_or_none_in(*compound, "whole_high_mL").value_or(0.0));
    }
    if (last <= 0.0) {
        return {};
    }
    const double step = std::pow(10.0, std::floor(std::log10(last)) - 1.0);
    const RangeAxis axis{0.0, std::ceil(last / step) * step, step};
    html::Table table;
    table.caption = fmt::format("In 95 of 100 runs; the bar is the whole band from 0 to {:.0f} mL, "
                                "the tick the middle that is expected",
                                axis.high);
    table.columns = {{"Compound"},   {"Middle, mL", true}, {"Whole band, mL", true},
                     {"Whole band"}, {"Fractions"},        {"Volume is"}};
    for (const Json *object : objects.compounds) {
        const Json &compound = *object;
        if (compound.at("middle_mL").is_null()) {
            continue;
        }
        const double low = number_in(compound, "whole_low_mL");
        const double middle = number_in(compound, "middle_mL");
        const double high = number_in(compound, "whole_high_mL");
        table.rows.push_back(
            {{{escaped(text_in(compound, "compound"))},
              volumes_cell(compound, "middle_low_mL", "middle_high_mL"),
              volumes_cell(compound, "whole_low_mL", "whole_high_mL"),
              {range_picture({low, middle, high}, axis,
                             fmt::format("whole band {:.0f} to {:.0f} mL, middle expected at "
                                         "{:.0f} mL",
                                         low, high, middle))},
              {fractions_words(compound, "first_fraction_95", "last_fraction_95")},
              {escaped(text_in(compound, "volume_basis"))}}});
    }
    return table_html(html::without_empty_columns(table));
}

/// The quantities of the band model, each with where it comes from.
std::string model_table(const Json &rows) {
    if (rows.empty()) {
        return {};
    }
    html::Table table;
    table.caption = "What the bands are computed with";
    table.columns = {{"Quantity"},     {"Unit"},   {"Value", true},
                     {"95 % between"}, {"Origin"}, {"Because"}};
    for (const Json &row : rows) {
        const auto low = number_or_none_in(row, "low");
        table.rows.push_back(
            {{{escaped(text_in(row, "quantity"))},
              {escaped(text_in(row, "unit"))},
              number_cell(row.at("value"), "{:.3g}"),
              {low ? fmt::format("{:.3g}–{:.3g}", *low, number_in(row, "high")) : ""},
              {escaped(text_in(row, "origin"))},
              {escaped(text_in(row, "reason"))}}});
    }
    return table_html(table);
}

std::string neighbours_table(const Json &column) {
    const Json &pairs = column.at("neighbours");
    if (pairs.empty()) {
        return {};
    }
    html::Table table;
    table.caption = "Neighbours; equal bands are parted at a resolution of 1.5, and touch at 1.0 "
                    "(common practice)";
    table.columns = {{"Leaves first"},
                     {"Then"},
                     {"Difference in Rf", true},
                     {"Apart, CV", true},
                     {"Resolution", true}};
    for (const Json &pair : pairs) {
        table.rows.push_back({{{escaped(pair.at("first").get<std::string>())},
                               {escaped(pair.at("second").get<std::string>())},
                               number_cell(pair.at("rf_difference"), "{:.2f}"),
                               number_cell(pair.at("column_volumes"), "{:.2f}"),
                               number_cell(pair.at("resolution"), "{:.1f}")}});
    }
    return table_html(html::without_empty_columns(table));
}

/// How the load relates to the table, in words.
std::string place_words(const Json &advice) {
    const auto portions = advice.at("portions").get<std::size_t>();
    if (portions > 1) {
        return fmt::format("More than its widest column takes: run it in {} portions.", portions);
    }
    return advice.at("place") == "below table"
               ? "Less than its narrowest column takes."
               : "Of the columns at hand take this or the next wider one.";
}

/// What the published table says beside what the plan was made with.
std::string column_table(const Json &column) {
    const Json &advice = column.at("advice");
    html::Table table;
    table.caption = "By the published table, and as planned";
    table.columns = {{"Quantity"}, {"By the table", true}, {"Planned with", true}};
    const auto add = [&](const char *what, const Json &by_table, const Json &planned,
                         std::string_view format) {
        if (!by_table.is_null() || !planned.is_null()) {
            table.rows.push_back(
                {{{what}, number_cell(by_table, format), number_cell(planned, format)}});
        }
    };
    const auto of_advice = [&](const char *field) {
        return advice.is_null() ? Json(nullptr) : advice.at(field);
    };
    add("Load, mg", of_advice("load_mg"), column.at("load_mg"), "{:.4g}");
    add("Inner diameter, mm", of_advice("diameter_mm"), column.at("diameter_mm"), "{:.0f}");
    add("Bed, mm", advice.is_null() ? Json(nullptr) : Json(fractions::kFlashBed_mm),
        column.at("bed_mm"), "{:.0f}");
    add("Silica, g", nullptr, column.at("silica_g"), "{:.3g}");
    add("Column volume (CV), mL", nullptr, column.at("column_volume_mL"), "{:.3g}");
    add("Outside the bed, mL", nullptr, column.at("outside_mL"), "{:.2g}");
    add("Eluent for packing and separation, mL", of_advice("eluent_mL"), nullptr, "{:.0f}");
    add("Fraction, mL", of_advice("fraction_mL"), column.at("fraction_mL"), "{:.0f}");
    add("Sample loaded in, mL", nullptr,
        column.at("load_mL") > 0.0 ? column.at("load_mL") : Json(nullptr), "{:.3g}");
    add("Forerun, mL", nullptr,
        column.at("forerun_mL") > 0.0 ? column.at("forerun_mL") : Json(nullptr), "{:.3g}");
    add("Plate number", nullptr, column.at("plate_number"), "{:.0f}");
    std::string html = table_html(html::without_empty_columns(table));
    if (advice.is_null()) {
        return html + "<p>No column is advised: give --load-mg, or amount_mg of every "
                      "compound.</p>\n";
    }
    return html + fmt::format("<p>{} Table: {}.</p>\n", place_words(advice),
                              escaped(advice.at("source").get<std::string>()));
}

/// Mixtures of the same two solvents, and the R_F that the target is expected to have in them.
std::string mixtures_table(const Json &eluent) {
    const Json &mixtures = eluent.at("mixtures");
    if (mixtures.size() < 2) {
        return {}; // the present one alone says nothing new
    }
    html::Table table;
    table.caption = "The target in other mixtures of these solvents, by the library; nine of ten "
                    "new values lie in the range";
    table.columns = {{"Mobile phase"}, {"Rf", true}, {"Range"}, {"CV", true}, {"Basis"}};
    for (const Json &mixture : mixtures) {
        const auto rf = mixture.at("rf").get<double>();
        const auto low = mixture.at("low").get<double>();
        const auto high = mixture.at("high").get<double>();
        table.rows.push_back(
            {{{escaped(mixture.at("mobile_phase").get<std::string>())},
              number_cell(mixture.at("rf"), "{:.2f}"),
              {range_picture({low, rf, high}, {0.0, 1.0, 1.0},
                             fmt::format("Rf {:.2f}, range {:.2f} to {:.2f}", rf, low, high))},
              {rf > 0.0 ? fmt::format("{:.1f}", 1.0 / rf) : ""},
              {escaped(mixture.at("basis").get<std::string>())}}});
    }
    return table_html(table);
}

std::string eluent_html(const Json &eluent) {
    std::string html = "<h2>Eluent</h2>\n";
    if (!eluent.at("mobile_phase").is_null()) {
        html +=
            "<p>Of the plate: " + escaped(eluent.at("mobile_phase").get<std::string>()) + ".</p>\n";
    }
    html +=
        "<p>" + escaped(eluent.at("text").get<std::string>()) + ".</p>\n" + mixtures_table(eluent);
    if (const Json &between = eluent.at("between"); !between.is_null()) {
        html += fmt::format("<p>Rf {:.2f} is expected in about {}, between {} and {}.</p>\n",
                            between.at("rf").get<double>(),
                            escaped(between.at("mobile_phase").get<std::string>()),
                            escaped(between.at("lower").get<std::string>()),
                            escaped(between.at("upper").get<std::string>()));
    }
    return html;
}

std::string verdict(const Json &column) {
    const Json &target = column.at("target");
    std::string words;
    if (!target.is_null()) {
        words = "Wanted: " + target.get<std::string>() + ". ";
    }
    const Json &change = column.at("eluent").at("change");
    words += column.at("needs_attention").get<bool>()
                 ? "Look at the warnings before the column is run."
             : change.is_null() || change == "keep"
                 ? "Nothing was found that speaks against this plan."
                 : fmt::format("A {} eluent would serve it better.", change.get<std::string>());
    return "<p class=\"verdict\">" + escaped(words) + "</p>\n";
}

PageContent column_page(const Report &report) {
    const PlanObjects objects = plan_objects(report.results);
    const Json &column = *objects.column;
    std::vector<std::string> warnings;
    for (const Json &warning : column.at("warnings")) {
        warnings.push_back(warning.at("text").get<std::string>());
    }
    const std::string body =
        verdict(column) +
        html::list_html("Look at this before the column is run", warnings, "warnings") +
        figure(objects) + compounds_table(objects) + intervals_table(objects) +
        html::list_html("How sure this is", texts_in(column, "interval_notes"), "notes") +
        neighbours_table(column) + "<h2>Column</h2>\n" + column_table(column) +
        eluent_html(column.at("eluent")) + "<h2>What this rests on</h2>\n" +
        model_table(column.at("band_model")) +
        html::list_html("", column.at("notes").get<std::vector<std::string>>(), "notes") +
        "<h2>Before you start</h2>\n" +
        html::list_html("", column.at("cautions").get<std::vector<std::string>>(), "warnings");
    const std::size_t count = objects.compounds.size();
    return {"A column planned from a plate",
            fmt::format("{} compound{} on silica, isocratic.", count, count == 1 ? "" : "s"), body};
}

/// One row a compound.
FlatTable column_flat_table(const Json &results) {
    FlatTable table{{"compound",
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
                     "amount_mg"},
                    {}};
    for (const Json *compound : plan_objects(results).compounds) {
        std::vector<Json> row;
        for (const std::string &column : table.columns) {
            row.push_back(compound->at(column));
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

} // namespace

const ReportDrawing &column_report() {
    static constexpr ReportDrawing drawing{column_page, column_flat_table};
    return drawing;
}

} // namespace cospot

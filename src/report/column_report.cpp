#include "report/column_report.h"

#include "fractions/column_plan.h"
#include "report/elution_picture.h"
#include "report/html.h"
#include "report/json_cells.h"
#include "report/range_picture.h"

#include <fmt/format.h>

#include <algorithm>
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
std::string fractions_words(const Json &compound) {
    if (compound.at("first_fraction").is_null() || compound.at("last_fraction").is_null()) {
        return "";
    }
    const int first = compound.at("first_fraction").get<int>();
    const int last = compound.at("last_fraction").get<int>();
    return last == 0       ? "forerun"
           : first == 0    ? fmt::format("up to {}", last)
           : first == last ? fmt::format("{}", first)
                           : fmt::format("{}-{}", first, last);
}

html::Cell volumes_cell(const Json &compound) {
    const auto volume = number_or_none_in(compound, "volume_mL");
    if (!volume) {
        return {};
    }
    const double reach = fractions::kBandSigmas * compound.at("sigma_mL").get<double>();
    return {fmt::format("{:.0f}–{:.0f}", std::max(0.0, *volume - reach), *volume + reach), volume};
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
                 volumes_cell(compound),
                 {fractions_words(compound)},
                 number_cell(compound.at("amount_mg"), "{:.4g}")};
    return row;
}

std::string compounds_table(const PlanObjects &objects) {
    html::Table table;
    table.caption = "Compounds in the order in which they leave; volume and fractions hold 95 % of "
                    "a band";
    table.columns = {{"Compound"},        {"Role"},     {"Rf", true}, {"Rf from the library"},
                     {"k", true},         {"CV", true}, {"mL", true}, {"Fractions"},
                     {"Amount, mg", true}};
    for (std::size_t i = 0; i < objects.compounds.size(); ++i) {
        table.rows.push_back(compound_row(*objects.compounds[i], i + 1));
    }
    return table_html(html::without_empty_columns(table));
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

PageContent page(const Report &report) {
    const PlanObjects objects = plan_objects(report.results);
    const Json &column = *objects.column;
    std::vector<std::string> warnings;
    for (const Json &warning : column.at("warnings")) {
        warnings.push_back(warning.at("text").get<std::string>());
    }
    const std::string body =
        verdict(column) +
        html::list_html("Look at this before the column is run", warnings, "warnings") +
        figure(objects) + compounds_table(objects) + neighbours_table(column) +
        "<h2>Column</h2>\n" + column_table(column) + eluent_html(column.at("eluent")) +
        "<h2>What this rests on</h2>\n" +
        html::list_html("", column.at("notes").get<std::vector<std::string>>(), "notes") +
        "<h2>Before you start</h2>\n" +
        html::list_html("", column.at("cautions").get<std::vector<std::string>>(), "warnings");
    const std::size_t count = objects.compounds.size();
    return {"A column planned from a plate",
            fmt::format("{} compound{} on silica, isocratic.", count, count == 1 ? "" : "s"), body};
}

/// One row a compound.
FlatTable flat_table(const Json &results) {
    FlatTable table{{"compound", "role", "rf", "rf_low", "rf_high", "basis", "k", "column_volumes",
                     "volume_mL", "sigma_mL", "first_fraction", "last_fraction", "amount_mg"},
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
    static constexpr ReportDrawing drawing{page, flat_table};
    return drawing;
}

} // namespace cospot

#include "column/column_advice.h"

#include "column/column_words.h"
#include "model/matcher/basis_text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

namespace cospot {

namespace {

using fractions::ColumnPlan;
using fractions::PlannedBand;

/// Rows of what the published table has for the load beside what the plan was made with.
class ColumnTableRows {
public:
    void add(std::string quantity, const std::optional<double> &by_table,
             const std::optional<double> &planned, int digits) {
        if (by_table || planned) {
            table_.rows.push_back(
                {{{std::move(quantity)}, cell(by_table, digits), cell(planned, digits)}});
        }
    }
    [[nodiscard]] Table table() && { return std::move(table_); }

private:
    static Cell cell(const std::optional<double> &value, int digits) {
        return value ? Cell{fmt::format("{:.{}g}", *value, digits), value} : Cell{};
    }

    Table table_{.label = "The column by the published table, and as planned",
                 .columns = {{"Quantity"}, {"By the table", true}, {"Planned with", true}}};
};

std::optional<double> above_zero(double value) {
    return value > 0.0 ? std::optional(value) : std::nullopt;
}

std::optional<double> rounded(const std::optional<double> &value) {
    return value ? std::optional(std::round(*value)) : std::nullopt;
}

/// Mass of the silica over the load of one portion.
std::optional<double> silica_over_load(const ColumnPlan &plan) {
    constexpr double mg_per_g = 1000.0;
    if (!plan.silica_g || !plan.load_mg) {
        return std::nullopt;
    }
    const double portions = plan.advice ? static_cast<double>(plan.advice->portions) : 1.0;
    return std::round(*plan.silica_g * mg_per_g * portions / *plan.load_mg);
}

Table column_table(const ColumnResult &result) {
    const ColumnPlan &plan = result.plan;
    const auto by_table = [&](double fractions::FlashColumn::*field) {
        return plan.advice ? std::optional(std::round(plan.advice->column.*field)) : std::nullopt;
    };
    using fractions::FlashColumn;
    constexpr int whole = 6; // digits
    ColumnTableRows rows;
    rows.add("Load, mg", by_table(&FlashColumn::load_mg), plan.load_mg, 4);
    rows.add("Inner diameter, mm", by_table(&FlashColumn::diameter_mm), plan.diameter_mm, 4);
    rows.add("Bed, mm", plan.advice ? std::optional(fractions::kFlashBed_mm) : std::nullopt,
             plan.bed_mm, 4);
    rows.add("Silica, g", {}, plan.silica_g, 3);
    rows.add("Silica over load, by mass", {}, silica_over_load(plan), whole);
    rows.add("Column volume (CV), mL", {}, plan.hold_up_ml, 3);
    rows.add("Volume outside the bed, mL", {},
             plan.column ? std::optional(plan.column->outside_ml()) : std::nullopt, 2);
    rows.add("Eluent for packing and separation, mL", by_table(&FlashColumn::eluent_ml),
             rounded(plan.eluent_ml), whole);
    rows.add("Fraction, mL", by_table(&FlashColumn::fraction_ml), plan.fraction_ml, 3);
    rows.add("Volume of the loaded sample, mL", {}, above_zero(result.settings.load_ml), 3);
    rows.add("Discarded before fraction 1, mL", {}, above_zero(result.settings.discarded_ml), 4);
    rows.add("Plate number", {}, std::round(plan.plate_number), whole);
    return std::move(rows).table();
}

std::string advice_words(const ColumnPlan &plan) {
    if (!plan.advice) {
        return "No column is advised: give --load-mg, or amount_mg of every compound.";
    }
    std::string text = "By the table";
    if (plan.difference) {
        const bool is_easy = *plan.difference >= fractions::kEasySeparation;
        text += fmt::format(" for neighbours {:g} apart in Rf (here {:.2f})",
                            is_easy ? fractions::kEasySeparation : fractions::kHardSeparation,
                            *plan.difference);
    }
    switch (plan.advice->place) {
    case fractions::TablePlace::below_first_row:
        return text + " even the narrowest column takes more.";
    case fractions::TablePlace::beyond_last_row:
        return text + fmt::format(" even the widest column takes less: run {} portions.",
                                  plan.advice->portions);
    case fractions::TablePlace::on_or_between_rows:
        break;
    }
    return text + fmt::format(" the sample takes {:.0f} mm. Of the columns at hand take this "
                              "diameter or the next wider one (--diameter-mm).",
                              plan.advice->column.diameter_mm);
}

std::string eluent_needed(const ColumnPlan &plan) {
    double end = 0.0;
    double latest = 0.0;
    for (const PlannedBand &planned : plan.bands) {
        if (planned.expected) {
            end = std::max(end, planned.expected->end_ml);
            latest = std::max(latest, planned.expected->whole.high_ml);
        }
    }
    return fmt::format("The last band is expected to end after {:.0f} mL of eluent, in 95 of 100 "
                       "runs before {:.0f} mL: have that ready.",
                       end, latest);
}

Table mixtures_table(const ColumnResult &result) {
    Table table{
        .label = "The target in mixtures of these solvents",
        .caption = "The target in mixtures of these solvents, as the library expects it",
        .columns = {
            {"Mobile phase"}, {"Rf", true}, {"9 of 10 values", true}, {"CV", true}, {"Basis"}}};
    for (const MixtureExpectation &mixture : result.eluents.mixtures) {
        const double rf = mixture.expected.expected;
        table.rows.push_back(
            {{{mixture.mobile_phase},
              {fmt::format("{:.2f}", rf), rf},
              {fmt::format("{:.2f}–{:.2f}", mixture.expected.low, mixture.expected.high)},
              {rf > 0.0 ? fmt::format("{:.1f}", 1.0 / rf) : ""},
              {std::string(to_text(mixture.expected.basis))}}});
    }
    return table;
}

} // namespace

Section column_section(const ColumnResult &result) {
    const ColumnPlan &plan = result.plan;
    const std::string own = result.settings.own ? ": " + result.settings.own->name : "";
    Section section{"The column" + own, "", {}, {column_table(result)}};
    section.blocks.push_back(Paragraph{advice_words(plan)});
    if (plan.column && std::any_of(plan.bands.begin(), plan.bands.end(),
                                   [](const auto &band) { return band.expected.has_value(); })) {
        section.blocks.push_back(Paragraph{eluent_needed(plan)});
    }
    return section;
}

Section eluent_section(const ColumnResult &result) {
    Section section{"The eluent", "", {}, {}};
    if (!result.mobile_phase.empty()) {
        section.heading += " of the plate: " + result.mobile_phase;
    }
    section.blocks.push_back(Paragraph{change_text(result) + '.'});
    if (result.strong_solvent.empty() && !result.eluent_doubts.empty()) {
        section.blocks.push_back(
            Paragraph{fmt::format("Which solvent makes this eluent stronger is not known: {}.",
                                  fmt::join(result.eluent_doubts, "; "))});
    }
    if (result.eluents.mixtures.size() > 1) { // the present one alone says nothing new
        section.blocks.push_back(mixtures_table(result));
    }
    if (const auto &between = result.eluents.between) {
        section.blocks.push_back(
            Paragraph{fmt::format("Rf {:.2f} is expected in about {}, between {} and {}.",
                                  kWantedRf, mixture_text(result.eluents, between->strong_fraction),
                                  between->lower, between->upper)});
    }
    return section;
}

} // namespace cospot

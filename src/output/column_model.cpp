#include "output/column_model.h"

#include <fmt/format.h>

#include <cmath>

namespace cospot {

namespace {

using fractions::ColumnBelief;

/// A quantity that is known up to a factor.
Json row(const char *quantity, const char *unit, double value, double factor, const char *origin,
         std::string reason) {
    return {{"quantity", quantity},       {"unit", unit},           {"value", value},
            {"low", value / factor},      {"high", value * factor}, {"origin", origin},
            {"reason", std::move(reason)}};
}

Json one_value(const char *quantity, const char *unit, double value, const char *origin,
               std::string reason) {
    Json json = row(quantity, unit, value, 1.0, origin, std::move(reason));
    json["low"] = nullptr;
    json["high"] = nullptr;
    return json;
}

double factor_of(double spread) {
    return std::exp(fractions::kIntervalReach * spread);
}

const char *origin_of_volumes(const ColumnResult &result, bool is_given) {
    return result.is_calibrated() ? "learned" : is_given ? "given" : "assumed";
}

void add_volumes(const ColumnResult &result, const fractions::StatedColumn &stated, Json &rows) {
    const ColumnBelief &column = *result.plan.column;
    const bool has_volume = stated.hold_up_ml.has_value();
    rows.push_back(row("hold-up volume of the bed", "mL", column.bed_ml(),
                       factor_of(column.spread(fractions::kBedHoldUp)),
                       origin_of_volumes(result, has_volume),
                       "1.6 mL a gram of silica, between and within the grains; packing differs"));
    rows.push_back(row("volume outside the bed", "mL", column.outside_ml(),
                       factor_of(column.spread(fractions::kOutsideBed)),
                       origin_of_volumes(result, has_volume || stated.outside_ml),
                       "tubing, valve, detector, head and foot of the column; adds to every band "
                       "once, held or not"));
    rows.push_back(
        row("k on the column over k on the plate", "", column.hold_ratio(),
            factor_of(column.spread(fractions::kHold)), origin_of_volumes(result, false),
            "the silica of a plate has taken up water from the air, that of a column is dry; and a "
            "column has more silica to the eluent"));
}

void add_retention(const ColumnResult &result, Json &rows) {
    const ColumnBelief &column = *result.plan.column;
    const char *const origin = result.is_calibrated() ? "learned" : "assumed";
    rows.push_back(row("k of one compound beside others", "", 1.0,
                       factor_of(fractions::kCompoundSpread * column.scatter), origin,
                       "water, the solvent front of a plate and the strength of the eluent act on "
                       "each compound differently"));
    rows.push_back(one_value("reading of Rf, standard deviation", "", fractions::kRfSpread,
                             "assumed",
                             "one plate, read once; of the library's values their own spread"));
    rows.push_back(row("volume, from run to run", "", 1.0,
                       factor_of(fractions::kRunSpread * column.scatter), origin,
                       "another cartridge of the kind, flow, temperature, eluent mixed anew"));
    rows.push_back(one_value("start of counting, standard deviation", "mL",
                             fractions::kStartShare * column.outside_ml(), "assumed",
                             "how far tubing and head were filled when counting began"));
}

void add_width(const ColumnResult &result, Json &rows) {
    const ColumnBelief &column = *result.plan.column;
    rows.push_back(one_value(
        "plate number", "", column.plate_number, result.settings.plate_number ? "given" : "assumed",
        fmt::format("{:g} mm of bed each (common practice)", fractions::kPlateHeight_mm)));
    rows.push_back(one_value("capacity of the silica", "mg/g", fractions::kCapacity_mg_per_g,
                             "assumed",
                             "overload widens a band with the square root of its share of the "
                             "capacity (Snyder, Cox, Antle, Chromatographia 1987, 24, 82; from "
                             "memory)"));
    rows.push_back(one_value("mixing outside the bed, standard deviation", "mL",
                             fractions::kMixingShare * column.outside_ml(), "assumed",
                             "between plug flow and an ideally mixed vessel"));
    rows.push_back(one_value("tailing", "", column.tailing,
                             result.has_peaks() ? "learned" : "assumed",
                             "back of a band over its front"));
    rows.push_back(row("width of a band over the computed one", "", std::exp(column.ln_width),
                       factor_of(std::hypot(column.width_spread, fractions::kBandWidthSpread)),
                       result.is_calibrated() ? "learned" : "assumed",
                       "what else widens bands: packing, loading, slow desorption"));
}

std::string counted(std::size_t count, const char *noun) {
    return fmt::format("{} {}{}", count, noun, count == 1 ? "" : "s");
}

std::string held_out_sentence(const ColumnResult &result) {
    const fractions::HoldOut &check = result.held_out;
    if (check.bands == 0) {
        return "With one run learned, its intervals cannot be checked on another.";
    }
    return fmt::format("Checked on its own runs, each predicted from the others: {} of {} lay with "
                       "the middle in the stated interval, {} as a whole.",
                       check.middles, counted(check.bands, "band"), check.wholes);
}

} // namespace

std::string band_basis(const ColumnResult &result, std::size_t compound) {
    const fractions::PlannedBand &planned = result.plan.bands[compound];
    if (!planned.expected) {
        return "";
    }
    return planned.known ? "measured" : result.is_calibrated() ? "calibrated" : "assumed";
}

Json band_model_json(const ColumnResult &result) {
    Json rows = Json::array();
    if (result.plan.column) {
        const fractions::StatedColumn stated =
            result.settings.own
                ? result.settings.own->stated
                : fractions::StatedColumn{
                      {}, {}, result.settings.hold_up_ml, result.settings.outside_ml, {}};
        add_volumes(result, stated, rows);
        add_retention(result, rows);
        add_width(result, rows);
    }
    return rows;
}

std::string teaching_sentence(const ColumnResult &result) {
    const fractions::ColumnPlan &plan = result.plan;
    if (!plan.teaching) {
        return "";
    }
    const std::string again = result.is_calibrated() ? "one more run" : "one run of this column";
    return fmt::format("The middle of the band is known to a factor of {:.1f} to both sides. {}{} "
                       "with these compounds, learned (cospot learn), would make it {:.1f} for "
                       "another compound with this Rf and {:.1f} for the same one.",
                       plan.teaching->now, static_cast<char>(std::toupper(again.front())),
                       again.substr(1), plan.teaching->other, plan.teaching->same);
}

std::vector<std::string> interval_sentences(const ColumnResult &result) {
    if (!result.plan.column) {
        return {};
    }
    std::vector<std::string> texts{
        "Intervals hold in 95 of 100 runs: one the middle of a band, the wider one all of it, from "
        "start to end."};
    if (!result.is_calibrated()) {
        texts.push_back(fmt::format(
            "No run of this column is known. Assumed: it holds a compound {:g} times as much as "
            "the plate (k; {:.1f} to {:.1f}), and {:.2g} mL lie outside the bed ({:.2g} to "
            "{:.2g}).",
            result.plan.column->hold_ratio(),
            result.plan.column->hold_ratio() /
                factor_of(result.plan.column->spread(fractions::kHold)),
            result.plan.column->hold_ratio() *
                factor_of(result.plan.column->spread(fractions::kHold)),
            result.plan.column->outside_ml(),
            result.plan.column->outside_ml() /
                factor_of(result.plan.column->spread(fractions::kOutsideBed)),
            result.plan.column->outside_ml() *
                factor_of(result.plan.column->spread(fractions::kOutsideBed))));
    } else {
        texts.push_back(fmt::format(
            "Column {} is calibrated by {} of {}: it holds a compound {:.1f} times as much as the "
            "plate (k), and {:.2g} mL lie outside the bed. {}",
            result.settings.own->name, counted(result.settings.own->seen.size(), "band"),
            counted(fractions::count_runs(result.settings.own->seen), "run"),
            result.plan.column->hold_ratio(), result.plan.column->outside_ml(),
            held_out_sentence(result)));
    }
    if (const std::string teaching = teaching_sentence(result); !teaching.empty()) {
        texts.push_back(teaching);
    }
    return texts;
}

} // namespace cospot

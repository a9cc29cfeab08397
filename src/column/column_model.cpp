#include "column/column_model.h"

#include <fmt/format.h>

#include <cmath>
#include <utility>

namespace cospot {

namespace {

using fractions::ColumnBelief;

/// A quantity that is known up to a factor.
BandQuantity quantity_within(const char *quantity, const char *unit, double value, double factor,
                             const char *origin, std::string reason) {
    return {quantity, unit, value, value / factor, value * factor, origin, std::move(reason)};
}

BandQuantity one_value(const char *quantity, const char *unit, double value, const char *origin,
                       std::string reason) {
    return {quantity, unit, value, {}, {}, origin, std::move(reason)};
}

using BandQuantities = std::vector<BandQuantity>;

const char *origin_of_volumes(const ColumnResult &result, bool is_given) {
    return result.is_calibrated() ? "learned" : is_given ? "given" : "assumed";
}

void add_volumes(const ColumnResult &result, const fractions::StatedColumn &stated,
                 BandQuantities &rows) {
    const ColumnBelief &column = *result.plan.column;
    const bool has_volume = stated.hold_up_ml.has_value();
    rows.push_back(quantity_within(
        "hold-up volume of the bed", "mL", column.bed_ml(),
        factor_of(column.spread(fractions::kBedHoldUp)), origin_of_volumes(result, has_volume),
        "1.6 mL a gram of silica, between and within the grains; packing differs"));
    rows.push_back(
        quantity_within("volume outside the bed", "mL", column.outside_ml(),
                        factor_of(column.spread(fractions::kOutsideBed)),
                        origin_of_volumes(result, has_volume || stated.outside_ml),
                        "tubing, valve, detector, head and foot of the column; adds to every band "
                        "once, held or not"));
    rows.push_back(quantity_within(
        "k on the column over k on the plate", "", column.hold_ratio(),
        factor_of(column.spread(fractions::kHold)), origin_of_volumes(result, false),
        "the silica of a plate has taken up water from the air, that of a column is dry; and a "
        "column has more silica to the eluent"));
}

void add_retention(const ColumnResult &result, BandQuantities &rows) {
    const ColumnBelief &column = *result.plan.column;
    const char *const origin = result.is_calibrated() ? "learned" : "assumed";
    rows.push_back(
        quantity_within("k of one compound beside others", "", 1.0,
                        factor_of(fractions::kCompoundSpread * column.scatter), origin,
                        "water, the solvent front of a plate and the strength of the eluent act on "
                        "each compound differently"));
    rows.push_back(one_value("reading of Rf, standard deviation", "", fractions::kRfSpread,
                             "assumed",
                             "one plate, read once; of the library's values their own spread"));
    rows.push_back(quantity_within(
        "volume, from run to run", "", 1.0, factor_of(fractions::kRunSpread * column.scatter),
        origin, "another cartridge of the kind, flow, temperature, eluent mixed anew"));
    rows.push_back(one_value("start of counting, standard deviation", "mL",
                             fractions::kStartShare * column.outside_ml(), "assumed",
                             "how far tubing and head were filled when counting began"));
}

void add_width(const ColumnResult &result, BandQuantities &rows) {
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
    rows.push_back(
        quantity_within("width of a band over the computed one", "", std::exp(column.ln_width),
                        factor_of(std::hypot(column.width_spread, fractions::kBandWidthSpread)),
                        result.is_calibrated() ? "learned" : "assumed",
                        "what else widens bands: packing, loading, slow desorption"));
}

} // namespace

std::string band_basis(const ColumnResult &result, std::size_t compound) {
    const fractions::PlannedBand &planned = result.plan.bands[compound];
    if (!planned.expected) {
        return "";
    }
    return planned.known ? "measured" : result.is_calibrated() ? "calibrated" : "assumed";
}

BandQuantities band_model(const ColumnResult &result) {
    BandQuantities rows;
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

double factor_of(double spread) {
    return std::exp(fractions::kIntervalReach * spread);
}

} // namespace cospot

#include "fractions/column_plan.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace cospot::fractions {

namespace {

constexpr double kRoundingSlack = 1e-9; // 0.35 - 0.25 is a little less than 0.1
constexpr double kLowestTarget = 0.1;
constexpr double kHighestTarget = 0.5;

bool is_censored(const PlateCompound &compound) {
    return compound.rf <= 0.0 || compound.rf >= 1.0;
}

std::optional<double> load_of(const std::vector<PlateCompound> &compounds,
                              const ColumnSettings &settings) {
    if (settings.load_mg) {
        return settings.load_mg;
    }
    double sum = 0.0;
    for (const PlateCompound &compound : compounds) {
        if (!compound.amount_mg) {
            return std::nullopt; // a part of the sample is no load
        }
        sum += *compound.amount_mg;
    }
    return sum > 0.0 ? std::optional(sum) : std::nullopt;
}

bool concerns_target(const ColumnPlan &plan, const Neighbours &pair) {
    return !plan.target || pair.first == *plan.target || pair.second == *plan.target;
}

void set_neighbours(ColumnPlan &plan) {
    for (std::size_t i = 0; i + 1 < plan.compounds.size(); ++i) {
        Neighbours pair{i, i + 1, plan.compounds[i].rf - plan.compounds[i + 1].rf, {}, {}};
        if (concerns_target(plan, pair)) {
            plan.difference =
                std::min(pair.rf_difference, plan.difference.value_or(pair.rf_difference));
        }
        plan.neighbours.push_back(pair);
    }
}

/// Diameter, silica, hold-up volume, fraction size: given, or by the table.
void choose_column(ColumnPlan &plan, const ColumnSettings &settings) {
    const double difference = std::max(kHardSeparation, plan.difference.value_or(kEasySeparation));
    if (plan.load_mg) {
        plan.advice = advise_column(*plan.load_mg, difference);
    }
    plan.diameter_mm = settings.diameter_mm;
    plan.fraction_ml = settings.fraction_ml;
    if (plan.advice && !plan.diameter_mm && !settings.hold_up_ml) {
        plan.diameter_mm = std::round(plan.advice->column.diameter_mm);
    }
    if (plan.diameter_mm) {
        const quantities::ColumnBed bed{*plan.diameter_mm, settings.bed_mm};
        plan.silica_g = quantities::silica_mass_g(bed);
        plan.hold_up_ml = quantities::hold_up_volume_ml(bed);
        const auto row = flash_column_of(*plan.diameter_mm, difference);
        if (row && !plan.fraction_ml) {
            plan.fraction_ml = std::round(row->fraction_ml);
        }
    }
    if (plan.advice && !plan.fraction_ml) {
        plan.fraction_ml = std::round(plan.advice->column.fraction_ml);
    }
    if (settings.hold_up_ml) {
        plan.hold_up_ml = settings.hold_up_ml;
    }
    plan.plate_number = settings.plate_number.value_or(settings.bed_mm / kPlateHeight_mm);
}

/// Number of the fraction in which this volume is collected; 0 in the forerun. None beyond a
/// million: no such column is run.
std::optional<int> fraction_at(double volume_ml, double fraction_ml, double forerun_ml) {
    constexpr double most = 1e6;
    const double number = std::floor((volume_ml - forerun_ml) / fraction_ml) + 1.0;
    return number > most ? std::nullopt : std::optional(static_cast<int>(std::max(0.0, number)));
}

void set_bands(ColumnPlan &plan, const ColumnSettings &settings) {
    for (const PlateCompound &compound : plan.compounds) {
        PlannedBand planned;
        if (!is_censored(compound)) {
            planned.column_volumes = quantities::column_volumes(compound.rf);
        }
        if (planned.column_volumes && plan.hold_up_ml) {
            planned.band = quantities::eluted_band(*planned.column_volumes, *plan.hold_up_ml,
                                                   plan.plate_number, settings.load_ml);
        }
        if (planned.band && plan.fraction_ml) {
            const double reach = kBandSigmas * planned.band->sigma_ml;
            planned.first_fraction = fraction_at(planned.band->volume_ml - reach, *plan.fraction_ml,
                                                 settings.forerun_ml);
            planned.last_fraction = fraction_at(planned.band->volume_ml + reach, *plan.fraction_ml,
                                                settings.forerun_ml);
        }
        plan.bands.push_back(planned);
    }
    for (Neighbours &pair : plan.neighbours) {
        const PlannedBand &first = plan.bands[pair.first];
        const PlannedBand &second = plan.bands[pair.second];
        if (first.column_volumes && second.column_volumes) {
            pair.column_volumes = *second.column_volumes - *first.column_volumes;
            pair.resolution =
                quantities::resolution(band_in_column_volumes(plan, pair.first).value(),
                                       band_in_column_volumes(plan, pair.second).value());
        }
    }
}

bool share_fractions(const PlannedBand &a, const PlannedBand &b) {
    return a.first_fraction && b.first_fraction && a.last_fraction && b.last_fraction &&
           *a.first_fraction <= *b.last_fraction && *b.first_fraction <= *a.last_fraction;
}

bool is_overloaded(const ColumnPlan &plan, const ColumnSettings &settings) {
    if (!plan.load_mg || !settings.diameter_mm) {
        return false;
    }
    const auto row =
        flash_column_of(*settings.diameter_mm,
                        std::max(kHardSeparation, plan.difference.value_or(kEasySeparation)));
    return row && *plan.load_mg > row->load_mg * (1.0 + kRoundingSlack);
}

void find_faults(ColumnPlan &plan, const ColumnSettings &settings) {
    for (std::size_t i = 0; i < plan.compounds.size(); ++i) {
        if (is_censored(plan.compounds[i])) {
            plan.findings.push_back(
                {plan.compounds[i].rf <= 0.0 ? PlanWarning::at_start : PlanWarning::at_front, {i}});
        }
    }
    for (const Neighbours &pair : plan.neighbours) {
        if (pair.rf_difference < kHardSeparation - kRoundingSlack) {
            plan.findings.push_back({PlanWarning::close, {pair.first, pair.second}});
        }
    }
    if (plan.target) {
        const double rf = plan.compounds[*plan.target].rf;
        if (rf < kLowestTarget || rf > kHighestTarget) {
            plan.findings.push_back({PlanWarning::target_range, {*plan.target}});
        }
        if (plan.bands[*plan.target].first_fraction == 0) {
            plan.findings.push_back({PlanWarning::in_forerun, {*plan.target}});
        }
        for (std::size_t i = 0; i < plan.bands.size(); ++i) {
            if (i != *plan.target && share_fractions(plan.bands[i], plan.bands[*plan.target])) {
                plan.findings.push_back({PlanWarning::overlap, {*plan.target, i}});
            }
        }
    }
    if (is_overloaded(plan, settings)) {
        plan.findings.push_back({PlanWarning::overload, {}});
    } else if (plan.advice && plan.advice->place == TablePlace::beyond_last_row) {
        plan.findings.push_back({PlanWarning::beyond_table, {}});
    }
}

} // namespace

std::string_view to_text(Role role) {
    switch (role) {
    case Role::target:
        return "target";
    case Role::impurity:
        return "impurity";
    case Role::unknown:
        break;
    }
    return "";
}

std::string_view to_text(PlanWarning warning) {
    switch (warning) {
    case PlanWarning::close:
        return "close";
    case PlanWarning::at_start:
        return "at_start";
    case PlanWarning::at_front:
        return "at_front";
    case PlanWarning::target_range:
        return "target_range";
    case PlanWarning::in_forerun:
        return "in_forerun";
    case PlanWarning::overlap:
        return "overlap";
    case PlanWarning::overload:
        return "overload";
    case PlanWarning::beyond_table:
        return "beyond_table";
    }
    return "";
}

ColumnPlan plan_column(std::vector<PlateCompound> compounds, const ColumnSettings &settings) {
    ColumnPlan plan;
    plan.load_mg = load_of(compounds, settings);
    std::stable_sort(compounds.begin(), compounds.end(),
                     [](const auto &a, const auto &b) { return a.rf > b.rf; });
    plan.compounds = std::move(compounds);
    const auto target =
        std::find_if(plan.compounds.begin(), plan.compounds.end(),
                     [](const auto &compound) { return compound.role == Role::target; });
    if (target != plan.compounds.end()) {
        plan.target = static_cast<std::size_t>(target - plan.compounds.begin());
    }
    set_neighbours(plan);
    choose_column(plan, settings);
    set_bands(plan, settings);
    find_faults(plan, settings);
    return plan;
}

std::optional<quantities::ElutedBand> band_in_column_volumes(const ColumnPlan &plan,
                                                             std::size_t compound) {
    const PlannedBand &planned = plan.bands[compound];
    if (!planned.column_volumes) {
        return std::nullopt;
    }
    if (planned.band) {
        return quantities::ElutedBand{planned.band->volume_ml / *plan.hold_up_ml,
                                      planned.band->sigma_ml / *plan.hold_up_ml};
    }
    return quantities::eluted_band(*planned.column_volumes, 1.0, plan.plate_number, 0.0);
}

} // namespace cospot::fractions

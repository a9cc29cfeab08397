#include "fractions/column_plan.h"

#include <algorithm>
#include <cmath>
#include <numbers>
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

bool has_size(const ColumnSettings &settings) {
    return settings.own || settings.diameter_mm || settings.silica_g || settings.hold_up_ml;
}

/// The diameter that the table has for the load, where nothing of the column's size is stated.
std::optional<double> advised_diameter(const ColumnPlan &plan, const ColumnSettings &settings) {
    return plan.advice && !has_size(settings)
               ? std::optional(std::round(plan.advice->column.diameter_mm))
               : settings.diameter_mm;
}

/// What the table has for a bed of its height that holds as much silica; none outside the table.
std::optional<double> eluent_of_silica_ml(double silica_g, double difference) {
    constexpr double mm3_per_ml = 1000.0;
    const double bed_mm3 = silica_g / quantities::kSilicaDensity_g_per_ml * mm3_per_ml;
    const double diameter_mm = std::sqrt(4.0 * bed_mm3 / (std::numbers::pi * kFlashBed_mm));
    constexpr double exact = 1e6; // a diameter of the table stays one
    const auto row = flash_column_of(std::round(diameter_mm * exact) / exact, difference);
    return row ? std::optional(row->eluent_ml) : std::nullopt;
}

StatedColumn stated_column(const ColumnPlan &plan, const ColumnSettings &settings) {
    StatedColumn stated{std::nullopt, settings.silica_g, settings.hold_up_ml, settings.outside_ml,
                        settings.plate_number};
    if (settings.own) {
        stated = settings.own->stated;
        stated.plate_number = settings.plate_number ? settings.plate_number : stated.plate_number;
    } else if (plan.diameter_mm) {
        stated.bed = quantities::ColumnBed{*plan.diameter_mm, settings.bed_mm};
    }
    return stated;
}

/// Diameter, silica, hold-up volume, fraction size: given, or by the table; and the column itself.
void choose_column(ColumnPlan &plan, const ColumnSettings &settings) {
    const double difference = std::max(kHardSeparation, plan.difference.value_or(kEasySeparation));
    if (plan.load_mg) {
        plan.advice = advise_column(*plan.load_mg, difference);
    }
    plan.fraction_ml = settings.fraction_ml;
    plan.diameter_mm = advised_diameter(plan, settings);
    const StatedColumn stated = stated_column(plan, settings);
    if (!stated.bed && !stated.silica_g) {
        plan.bed_mm = settings.bed_mm;
    }
    if (stated.bed) {
        plan.bed_mm = stated.bed->height_mm;
        plan.diameter_mm = stated.bed->diameter_mm;
        plan.silica_g = quantities::silica_mass_g(*stated.bed);
        const auto row = flash_column_of(*plan.diameter_mm, difference);
        if (row && !plan.fraction_ml) {
            plan.fraction_ml = std::round(row->fraction_ml);
        }
    } else {
        plan.silica_g = stated.silica_g;
    }
    if (plan.advice && !plan.fraction_ml) {
        plan.fraction_ml = std::round(plan.advice->column.fraction_ml);
    }
    if (plan.silica_g) {
        plan.hold_up_ml = quantities::hold_up_of_silica_ml(*plan.silica_g);
        plan.eluent_ml =
            has_size(settings) ? eluent_of_silica_ml(*plan.silica_g, difference) : std::nullopt;
    }
    if (stated.hold_up_ml) {
        plan.hold_up_ml = stated.hold_up_ml;
    }
    plan.plate_number = settings.plate_number.value_or(settings.bed_mm / kPlateHeight_mm);
    if (plan.hold_up_ml) {
        plan.column = assumed_column(stated);
        if (settings.own) {
            plan.column = calibrated(*plan.column, settings.own->seen);
        }
        plan.plate_number = plan.column->plate_number;
    }
}

/// Number of the fraction in which this volume is collected; 0: discarded before fraction 1. None
/// beyond a million: no such column is run.
std::optional<int> fraction_at(double volume_ml, double fraction_ml, double discarded_ml) {
    constexpr double most = 1e6;
    const double number = std::floor((volume_ml - discarded_ml) / fraction_ml) + 1.0;
    return number > most ? std::nullopt : std::optional(static_cast<int>(std::max(0.0, number)));
}

/// The compound as it is loaded: its own amount, else an equal share of the sample.
LoadedCompound loaded(const ColumnPlan &plan, std::size_t compound, double load_ml) {
    const PlateCompound &from = plan.compounds[compound];
    LoadedCompound result{from.rf, from.rf_spread, from.amount_mg, load_ml};
    if (!result.load_mg && plan.load_mg) {
        result.load_mg = *plan.load_mg / static_cast<double>(plan.compounds.size());
    }
    return result;
}

PlannedBand planned_band(const ColumnPlan &plan, std::size_t compound,
                         const ColumnSettings &settings) {
    PlannedBand planned;
    const PlateCompound &from = plan.compounds[compound];
    if (is_censored(from)) {
        return planned;
    }
    planned.column_volumes = quantities::column_volumes(from.rf);
    if (!plan.column) {
        return planned;
    }
    if (settings.own) {
        planned.known = known_middle(settings.own->seen, from.name, from.rf);
    }
    planned.expected =
        expected_band(*plan.column, loaded(plan, compound, settings.load_ml), planned.known);
    if (plan.fraction_ml) {
        const auto fraction = [&](double ml) {
            return fraction_at(ml, *plan.fraction_ml, settings.discarded_ml);
        };
        planned.first_fraction = fraction(planned.expected->start_ml);
        planned.last_fraction = fraction(planned.expected->end_ml);
        planned.first_in_95 = fraction(planned.expected->whole.low_ml);
        planned.last_in_95 = fraction(planned.expected->whole.high_ml);
    }
    return planned;
}

void set_bands(ColumnPlan &plan, const ColumnSettings &settings) {
    for (std::size_t i = 0; i < plan.compounds.size(); ++i) {
        plan.bands.push_back(planned_band(plan, i, settings));
    }
    for (Neighbours &pair : plan.neighbours) {
        const PlannedBand &first = plan.bands[pair.first];
        const PlannedBand &second = plan.bands[pair.second];
        if (first.column_volumes && second.column_volumes) {
            const auto early = band_in_column_volumes(plan, pair.first).value();
            const auto late = band_in_column_volumes(plan, pair.second).value();
            pair.column_volumes = late.volume_ml - early.volume_ml;
            pair.resolution = quantities::resolution(early, late);
        }
    }
}

/// What one run would teach about the target, else about the compound that leaves last.
void set_teaching(ColumnPlan &plan, const ColumnSettings &settings) {
    if (!plan.column) {
        return;
    }
    std::vector<LoadedCompound> run;
    std::optional<std::size_t> asked; // index in the run
    std::optional<KnownMiddle> known;
    for (std::size_t i = 0; i < plan.compounds.size(); ++i) {
        if (!plan.bands[i].expected) {
            continue;
        }
        run.push_back(loaded(plan, i, settings.load_ml));
        if (!plan.target || plan.target == i) {
            asked = run.size() - 1;
            known = plan.bands[i].known;
            plan.taught = i;
        }
    }
    if (asked) {
        plan.teaching = taught_by_one_run(*plan.column, run, *asked, known);
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
        if (plan.bands[*plan.target].first_in_95 == 0) {
            plan.findings.push_back({PlanWarning::in_discarded, {*plan.target}});
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
    case PlanWarning::in_discarded:
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
    set_teaching(plan, settings);
    find_faults(plan, settings);
    return plan;
}

std::optional<quantities::ElutedBand> band_in_column_volumes(const ColumnPlan &plan,
                                                             std::size_t compound) {
    const PlannedBand &planned = plan.bands[compound];
    if (!planned.column_volumes) {
        return std::nullopt;
    }
    const PlateCompound &from = plan.compounds[compound];
    if (planned.expected) {
        return quantities::ElutedBand{planned.expected->band.volume_ml / *plan.hold_up_ml,
                                      planned.expected->band.sigma_ml / *plan.hold_up_ml};
    }
    // A bed of 1 mL of hold-up, with next to nothing outside.
    constexpr double nothing = 1e-6;
    const ColumnBelief column =
        assumed_column({std::nullopt, std::nullopt, 1.0, nothing, plan.plate_number});
    return expected_band(column, {from.rf, from.rf_spread, std::nullopt, 0.0}).band;
}

} // namespace cospot::fractions

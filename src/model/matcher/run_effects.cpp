#include "model/matcher/run_effects.h"

#include "model/matcher/retention_scale.h"
#include "shared/robust.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace cospot::matcher {

namespace {

constexpr int kRounds = 4;
constexpr std::size_t kFewestCompounds = 3; ///< of a run, that were measured in other runs too
constexpr std::size_t kFewestRuns = 5;
/// Variance of a median of n normal values, in units of their variance over n (pi / 2, n large).
constexpr double kPriceOfMedian = 1.5708;

struct Reading {
    std::size_t compound;
    std::int64_t run;
    double value; ///< model scale
};

std::vector<Reading> readings_of(Quantity quantity, std::span<const KnownValue> values) {
    std::vector<Reading> readings;
    for (const KnownValue &known : values) {
        if (known.run_is_named && censoring(quantity, known.value) == Censoring::none) {
            readings.push_back({known.compound, known.run, to_model_scale(quantity, known.value)});
        }
    }
    return readings;
}

/// The compounds' medians over runs, freed of the shifts; compounds of one run only have none.
std::map<std::size_t, double> compound_medians(const std::vector<Reading> &readings,
                                               const RunEffects &effects) {
    std::map<std::size_t, std::map<std::int64_t, std::vector<double>>> by_compound;
    for (const Reading &reading : readings) {
        by_compound[reading.compound][reading.run].push_back(reading.value);
    }
    std::map<std::size_t, double> medians;
    for (const auto &[compound, runs] : by_compound) {
        std::vector<double> of_runs;
        for (const auto &[run, of_run] : runs) {
            const auto shift = effects.shifts.find(run);
            of_runs.push_back(upper_median(of_run) -
                              (shift == effects.shifts.end() ? 0.0 : shift->second));
        }
        if (of_runs.size() > 1) {
            medians.emplace(compound, upper_median(std::move(of_runs)));
        }
    }
    return medians;
}

/// Deviations from the compounds' medians by run, of the runs with enough of them.
std::map<std::int64_t, std::vector<double>>
deviations_of(const std::vector<Reading> &readings, const std::map<std::size_t, double> &medians) {
    std::map<std::int64_t, std::map<std::size_t, std::vector<double>>> by_run;
    for (const Reading &reading : readings) {
        const auto median = medians.find(reading.compound);
        if (median != medians.end()) {
            by_run[reading.run][reading.compound].push_back(reading.value - median->second);
        }
    }
    std::map<std::int64_t, std::vector<double>> deviations;
    for (const auto &[run, compounds] : by_run) {
        if (compounds.size() >= kFewestCompounds) {
            for (const auto &[compound, values] : compounds) {
                deviations[run].push_back(upper_median(values));
            }
        }
    }
    return deviations;
}

double robust_variance(std::vector<double> values) {
    return std::pow(deviation_about_zero(std::move(values)), 2);
}

RunEffects shrunken(const std::map<std::int64_t, std::vector<double>> &deviations) {
    std::vector<double> raw;
    std::vector<double> rest;
    double chance = 0.0; // what chance adds to the variance of the raw shifts, per unit of rest
    for (const auto &[run, values] : deviations) {
        const double shift = upper_median(values);
        raw.push_back(shift);
        chance += kPriceOfMedian / static_cast<double>(values.size());
        for (const double value : values) {
            rest.push_back(value - shift);
        }
    }
    const double rest_variance = robust_variance(rest);
    chance *= rest_variance / static_cast<double>(raw.size());
    RunEffects effects;
    effects.variance = std::max(0.0, robust_variance(raw) - chance);
    for (const auto &[run, values] : deviations) {
        const double own = kPriceOfMedian * rest_variance / static_cast<double>(values.size());
        const double total = effects.variance + own;
        effects.shifts[run] = total > 0.0 ? upper_median(values) * effects.variance / total : 0.0;
    }
    return effects;
}

} // namespace

double RunEffects::shift_of(const KnownValue &known) const {
    const auto shift = shifts.find(known.run);
    return known.run_is_named && shift != shifts.end() ? shift->second : 0.0;
}

RunEffects fit_run_effects(Quantity quantity, std::span<const KnownValue> values) {
    const std::vector<Reading> readings = readings_of(quantity, values);
    RunEffects effects;
    for (int round = 0; round < kRounds; ++round) {
        const auto deviations = deviations_of(readings, compound_medians(readings, effects));
        if (deviations.size() < kFewestRuns) {
            return {};
        }
        effects = shrunken(deviations);
    }
    return effects;
}

} // namespace cospot::matcher

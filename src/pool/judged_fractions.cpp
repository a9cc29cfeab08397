#include "pool/judged_fractions.h"

#include "fractions/components.h"
#include "fractions/plates.h"
#include "fractions/spot_pairs.h"
#include "fractions/tolerance.h"
#include "fractions/trace.h"
#include "identification/component_names.h"
#include "integration/photographed_rows.h"
#include "library/names.h"
#include "options/open_library.h"
#include "options/options.h"
#include "readers/fraction_table.h"
#include "readers/input_file.h"
#include "shared/number.h"
#include "shared/robust.h"
#include "shared/table_number.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

namespace cospot {

namespace {

constexpr double kUsualFront_mm = 70.0;      // common practice, no source
constexpr double kLargestTolerance = 0.5;    // of those by the reading error
constexpr std::size_t kMostComponents = 500; // more are no column, and every pair is compared

double front_of(const FractionTable &table) {
    return table.fronts_mm.empty() ? kUsualFront_mm : upper_median(table.fronts_mm);
}

/// Puts what was weighed and measured to the fractions.
void add_amounts(std::vector<fractions::Fraction> &fractions,
                 const std::map<int, FractionAmount> &amounts) {
    for (fractions::Fraction &fraction : fractions) {
        if (const auto amount = amounts.find(fraction.number); amount != amounts.end()) {
            const auto &[mass_mg, volume_ml] = amount->second;
            fraction.mass_mg = mass_mg ? mass_mg : fraction.mass_mg;
            fraction.volume_ml = volume_ml ? volume_ml : fraction.volume_ml;
        }
    }
}

std::string shift_note(const fractions::PlateShift &shift) {
    const std::string name =
        shift.plate.empty() ? "The plate without a name" : "Plate " + shift.plate;
    if (shift.shared_standards > 0) {
        return fmt::format("{} runs {:+.3f} in R_M against the plates before it (by {} on both), "
                           "which was taken off.",
                           name, shift.rm_shift, counted(shift.shared_standards, "standard"));
    }
    return shift.shared_fractions > 0
               ? fmt::format("{} runs {:+.3f} in Rf against the plates before it (from {} on "
                             "both), which was taken off.",
                             name, shift.shift, counted(shift.shared_fractions, "fraction"))
               : fmt::format("{} shares neither a standard nor a usable fraction with the plates "
                             "before it: its Rf counts as read. Spot a standard (role standard) or "
                             "one fraction on both plates to be sure.",
                             name);
}

/// The tolerance that is used, and the sentence that says why.
struct ChosenTolerance {
    double value = 0.0;
    std::string why;
};

/// As given; else what the fractions propose, but no less than reading distances explains.
ChosenTolerance choose_tolerance(const FractionTable &table, const PoolOptions &options) {
    constexpr const char *what = "Spots of neighbouring fractions count as one component within";
    if (options.tolerance) {
        return {*options.tolerance,
                fmt::format("{} {:g} in Rf, as given.", what, *options.tolerance)};
    }
    const double front_mm = front_of(table);
    const double by_reading = std::min(
        kLargestTolerance, fractions::default_tolerance(front_mm, options.reading_error_mm));
    const std::string reading = fmt::format(
        "three standard uncertainties of a difference, distances read to {:g} mm on a "
        "front at {:g} mm{}",
        options.reading_error_mm, front_mm, table.fronts_mm.empty() ? " (assumed)" : "");
    const auto scatter = fractions::lane_scatter(
        fractions::read_together(table.lanes, by_reading, table.standards).fractions);
    if (!scatter) {
        return {by_reading, fmt::format("{} {:.3f} in Rf: {}. Too few pairs of spots show how far "
                                        "they scatter; --tolerance sets another.",
                                        what, by_reading, reading)};
    }
    const double value = std::min(kLargestTolerance, fractions::tolerance_of(*scatter, by_reading));
    const std::string seen =
        fmt::format("{} scatter by {:.3f}", counted(scatter->pairs, "pair"), scatter->scatter);
    return {
        value,
        value > by_reading
            ? fmt::format("{} {:.3f} in Rf, as the data propose: {} of them{}; reading explains "
                          "{:.3f} only. --tolerance sets another.",
                          what, value, seen,
                          scatter->least_gap && value >= *scatter->least_gap / 2.0
                              ? ", and half of the least gap in one fraction is the most"
                              : ", three times of which is taken",
                          by_reading)
            : fmt::format("{} {:.3f} in Rf: {}. {} of them, no more than that; --tolerance sets "
                          "another.",
                          what, value, reading, seen)};
}

void judge_plates(const FractionTable &table, const PoolOptions &options, PoolResult &result) {
    const ChosenTolerance tolerance = choose_tolerance(table, options);
    result.tolerance = tolerance.value;
    auto plated = fractions::read_together(table.lanes, tolerance.value, table.standards);
    result.run.fractions = std::move(plated.fractions);
    add_amounts(result.run.fractions, table.amounts);
    result.run.components = fractions::find_components(result.run.fractions, *result.tolerance);
    result.notes.push_back(tolerance.why);
    for (const fractions::PlateShift &shift : plated.shifts) {
        result.notes.push_back(shift_note(shift));
    }
}

std::vector<fractions::Fraction> trace_fractions(const FractionTable &table,
                                                 const std::optional<double> &fraction_ml) {
    if (table.points.empty()) {
        std::vector<fractions::Fraction> fractions;
        for (const auto &[number, signal] : table.signals) {
            fractions.push_back({number, {}, {}, signal, std::nullopt, fraction_ml});
        }
        return fractions;
    }
    if (!fraction_ml) {
        throw bad_option("fraction-ml", "nothing",
                         "the size of a fraction in mL, for a trace by volume");
    }
    for (const fractions::TracePoint &point : table.points) {
        if (point.volume_ml > *fraction_ml * kMostFractions) {
            throw bad_option("fraction-ml", exact_text(*fraction_ml),
                             fmt::format("at most {} fractions, of larger size for {} mL",
                                         kMostFractions, exact_text(point.volume_ml)));
        }
    }
    return fractions::fractions_of_trace(table.points, *fraction_ml);
}

void judge_trace(const FractionTable &table, const PoolOptions &options, PoolResult &result) {
    auto fractions = trace_fractions(table, options.fraction_ml);
    add_amounts(fractions, table.amounts);
    double largest = 0.0;
    for (const fractions::Fraction &fraction : fractions) {
        largest = std::max(largest, fraction.signal.value());
    }
    result.threshold = options.baseline.value_or(fractions::kThresholdShare * largest);
    fractions::TraceBands bands = fractions::find_bands(std::move(fractions), *result.threshold);
    result.run = std::move(bands.run);
    if (!bands.shoulders.empty()) {
        result.warnings.push_back(
            {fractions::WarningKind::shoulder, {}, fractions::ranges_of(bands.shoulders)});
    }
    result.notes.push_back(fmt::format("Signals up to {:.4g} count as nothing ({}).",
                                       *result.threshold,
                                       options.baseline ? "as given" : "2 % of the largest"));
    if (!table.points.empty()) {
        result.notes.emplace_back("Volume 0 is taken as the start of fraction 1.");
    }
}

void name_by_library(const Invocation &invocation, const PoolOptions &options,
                     const FractionTable &table, PoolResult &result) {
    if (result.run.is_trace) {
        throw bad_option("system", in_quotes(*options.system),
                         "no system for a trace, which has no Rf");
    }
    library::Database database = open_library(invocation, library::Access::read);
    ComponentNames names = name_components(
        result.run, {*options.system, front_of(table), options.reading_error_mm}, database);
    result.candidates = std::move(names.components);
    result.notes.insert(result.notes.end(), names.notes.begin(), names.notes.end());
}

/// The component that is the compound with the highest probability, together with what cannot be
/// told apart from it.
/// `name` is that of the library.
void find_named_target(const PoolResult &result, const std::string &name, PoolTarget &target) {
    constexpr double worth_saying = 0.05;
    for (std::size_t i = 0; i < result.candidates.size(); ++i) {
        const Identification &identified = result.candidates[i];
        for (const matcher::Group &group : identified.groups) {
            const bool holds_it =
                std::any_of(group.members.begin(), group.members.end(), [&](std::size_t member) {
                    return equal_ignoring_case(identified.candidates[member].name, name);
                });
            if (holds_it &&
                group.probability >= std::max(worth_saying, target.probability.value_or(0.0))) {
                target.component = i;
                target.probability = group.probability;
            }
        }
    }
}

/// The name that the library has for a compound now; as asked where it holds none.
std::string name_in_library(const std::string &asked, const Invocation &invocation) {
    library::Database database = open_library(invocation, library::Access::read);
    const auto held = compound_if_named(database, asked, at_option("target"));
    return held ? held->name : asked;
}

PoolTarget find_target(const PoolResult &result, const PoolOptions &options,
                       const Invocation &invocation) {
    const std::string &asked = *options.target;
    PoolTarget target{asked, std::nullopt, std::nullopt};
    const auto &components = result.run.components;
    const auto rf = written_number(asked);
    if (rf && !rf->has_groups) {
        double nearest = result.tolerance.value_or(0.0);
        for (std::size_t i = 0; i < components.size(); ++i) {
            const double distance = std::abs(components[i].rf.value_or(HUGE_VAL) - rf->value);
            if (distance <= nearest) {
                nearest = distance;
                target.component = i;
            }
        }
        return target;
    }
    for (std::size_t i = 0; i < components.size(); ++i) {
        if (equal_ignoring_case(components[i].name, asked)) {
            target.component = i;
            return target;
        }
    }
    if (options.system) {
        find_named_target(result, name_in_library(asked, invocation), target);
    }
    return target;
}

FractionTable fractions_in(InputFile &input, const PoolOptions &options) {
    return holds_photo(input.stream())
               ? fraction_rows(read_photo(input.stream(), input.name(), options.photo),
                               options.photo)
               : read_fractions(input.stream(), input.name(), options.aliases);
}

} // namespace

PoolResult judged_fractions(const PoolOptions &options, const Invocation &invocation,
                            std::istream &standard_input) {
    InputFile input(options.file, standard_input);
    const FractionTable table = fractions_in(input, options);
    PoolResult result;
    result.loaded_mg = options.loaded_mg;
    result.notes.insert(result.notes.end(), table.notes.begin(), table.notes.end());
    if (table.is_trace()) {
        judge_trace(table, options, result);
    } else {
        judge_plates(table, options, result);
    }
    if (result.run.components.size() > kMostComponents) {
        throw InputError(
            {input.name(), 0, ""}, fmt::format("{} components", result.run.components.size()),
            fmt::format("at most {} of one column, or a larger --tolerance", kMostComponents));
    }
    result.pooling = fractions::judge_fractions(result.run);
    const auto warnings = fractions::find_warnings(result.run, result.pooling,
                                                   result.tolerance.value_or(0.0), options.order);
    result.warnings.insert(result.warnings.end(), warnings.begin(), warnings.end());
    if (options.system) {
        name_by_library(invocation, options, table, result);
    }
    if (options.target) {
        result.target = find_target(result, options, invocation);
    }
    return result;
}

} // namespace cospot

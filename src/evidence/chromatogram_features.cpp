#include "evidence/chromatogram_features.h"

#include "quantities/retention_factor.h"
#include "shared/error.h"
#include "shared/number.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

using quantities::IndexedTime;
using quantities::LadderPosition;

/// An index outside the ladder is trusted to a tenth of its distance from the last member
/// (an assumption of the program; the definition gives no index there).
constexpr double kExtrapolationError = 0.1;

/// Index units that a reader does not expect of the time's last digit.
constexpr double kReadingWorthSaying = 5.0;

std::string why_no_index(const IndexedTime &indexed, const quantities::Ladder &ladder) {
    switch (indexed.position) {
    case LadderPosition::before_first:
        return fmt::format("before C{:g}, the first member of the ladder: no index",
                           ladder.points.front().carbon);
    case LadderPosition::after_last:
        return fmt::format("after C{:g}, the last member of the ladder: no index",
                           ladder.points.back().carbon);
    case LadderPosition::before_hold_up:
        return "at or before the hold-up time: not retained, no index";
    case LadderPosition::inside:
        break;
    }
    return "";
}

double distance_outside(double index, const quantities::Ladder &ladder) {
    return std::max(100 * ladder.points.front().carbon - index,
                    index - 100 * ladder.points.back().carbon);
}

/// Standard uncertainty of the time of a peak: as stated for it, else what is said of all times,
/// but not less than their rounding.
double time_error_of(const Peak &peak, const ChromatogramReading &reading) {
    return peak.uncertainty_min.value_or(std::max(reading.time_error_min, peak.rounding_min));
}

void observe_index(Feature &feature, FeatureObservation observation, const Peak &peak,
                   const ChromatogramReading &reading) {
    const double retention_time_min = peak.retention_time_min;
    const quantities::Ladder &ladder = *reading.ladder;
    const IndexedTime indexed =
        quantities::index_on_ladder(ladder, retention_time_min, reading.law,
                                    reading.hold_up_min.value_or(0.0), reading.extrapolate);
    if (!indexed.index) {
        feature.warnings.push_back(why_no_index(indexed, ladder));
        return;
    }
    observation.quantity = Quantity::RI;
    observation.value = *indexed.index;
    observation.extrapolated = indexed.extrapolated;
    const double of_reading = std::hypot(indexed.index_per_min * time_error_of(peak, reading),
                                         indexed.ladder_per_min * reading.time_error_min);
    const double of_place =
        indexed.extrapolated
            ? std::max(indexed.interpolation_uncertainty,
                       kExtrapolationError * distance_outside(*indexed.index, ladder))
            : indexed.interpolation_uncertainty;
    observation.uncertainty = std::hypot(of_reading, of_place);
    if (indexed.extrapolated) {
        feature.warnings.push_back(fmt::format(
            "outside the ladder: the index is extrapolated, to about {:.2g} units", of_place));
    } else if (indexed.in_gap) {
        feature.warnings.push_back(of_place > 0.0
                                       ? fmt::format("in a gap of the ladder: the index is "
                                                     "interpolated, to about {:.2g} units",
                                                     of_place)
                                       : "in a gap of the ladder: the index is interpolated");
    }
    if (of_reading > kReadingWorthSaying) {
        feature.warnings.push_back(fmt::format("the index moves by {:.2g} units in 0.01 min here: "
                                               "reading the time makes it uncertain by {:.2g}",
                                               0.01 * indexed.index_per_min, of_reading));
    }
    feature.observations.push_back(std::move(observation));
}

void observe_retention_factor(Feature &feature, FeatureObservation observation, const Peak &peak,
                              const ChromatogramReading &reading) {
    observation.quantity = Quantity::k;
    observation.value = quantities::retention_factor(peak.retention_time_min, *reading.hold_up_min);
    observation.uncertainty = time_error_of(peak, reading) / *reading.hold_up_min;
    feature.observations.push_back(std::move(observation));
}

/// The ratio to the reference peak, whose own ratio is 1 without any error.
void observe_relative(Feature &feature, FeatureObservation observation, const Peak &peak,
                      const Peak &reference, const ChromatogramReading &reading) {
    const double time = peak.retention_time_min;
    const double reference_time = reference.retention_time_min;
    observation.quantity = *reading.relative;
    if (&peak == &reference) {
        observation.value = 1.0;
        feature.warnings.emplace_back(
            "the reference: its relative retention is 1 whatever compound it is; another system, "
            "or its standard in a run beside it, would tell");
    } else if (observation.quantity == Quantity::RRT) {
        const auto ratio = quantities::unadjusted_relative_retention(time, reference_time,
                                                                     time_error_of(peak, reading));
        observation.value = ratio.value;
        observation.uncertainty = ratio.standard_uncertainty;
    } else if (time == *reading.hold_up_min) {
        feature.warnings.emplace_back("at the hold-up time: not retained, no relative retention");
        return;
    } else {
        const auto ratio = quantities::relative_retention(
            time, reference_time, *reading.hold_up_min, time_error_of(peak, reading));
        observation.value = ratio.value;
        observation.uncertainty = ratio.standard_uncertainty;
    }
    feature.observations.push_back(std::move(observation));
}

/// Whether a peak and the hold-up time that the user gave are one: within half the width at half
/// height, else within 0.5 % of the time and at least 0.02 min (common practice, no source).
bool is_at_hold_up(const Peak &peak, const ChromatogramReading &reading) {
    if (!reading.hold_up_min || reading.hold_up_is_estimated) {
        return false;
    }
    constexpr double share = 0.005;
    constexpr double least_min = 0.02;
    const double tolerance = peak.width_half_min.value_or(0.0) > 0.0
                                 ? *peak.width_half_min / 2.0
                                 : std::max(least_min, share * *reading.hold_up_min);
    constexpr double rounding = 1.0 + 1e-9; // 1.34 - 1.32 is a little more than 0.02
    return std::abs(peak.retention_time_min - *reading.hold_up_min) <= tolerance * rounding;
}

/// Why a peak counts as that of the hold-up time; empty where it does not. The earliest peak is not
/// taken for it where nobody says so.
std::string why_unretained(const Peak &peak, const Peak *reference,
                           const ChromatogramReading &reading) {
    if (!peak.called_unretained.empty()) {
        return fmt::format("called {} in the table", in_quotes(peak.called_unretained));
    }
    return peak.compound.empty() && &peak != reference && is_at_hold_up(peak, reading)
               ? fmt::format("at the hold-up time of {} min", exact_text(*reading.hold_up_min))
               : "";
}

Feature feature_of(const Peak &peak, const Peak *reference, const ChromatogramReading &reading,
                   const std::string &file) {
    const std::string unretained = why_unretained(peak, reference, reading);
    const bool before_hold_up =
        reading.hold_up_min && peak.retention_time_min < *reading.hold_up_min;
    if (before_hold_up && !reading.hold_up_is_estimated && unretained.empty()) {
        throw InputError({file, peak.line, "tR"}, exact_text(peak.retention_time_min) + " min",
                         fmt::format("a time from the hold-up time on, {} min",
                                     exact_text(*reading.hold_up_min)));
    }
    Feature feature;
    feature.sample = reading.sample;
    feature.run = reading.sample;
    feature.date = peak.date;
    feature.name = peak.name;
    feature.retention_time_min = peak.retention_time_min;
    feature.area = peak.area;
    feature.is_area_below = peak.is_area_below;
    feature.ppm = peak.ppm;
    feature.is_ppm_below = peak.is_ppm_below;
    feature.ppm_below = peak.ppm_below;
    feature.is_ppm_undetected = peak.is_ppm_undetected;
    feature.shape = {peak.start_min, peak.end_min, peak.height, peak.width_half_min, peak.symmetry};
    FeatureObservation observation;
    observation.system = reading.system;
    observation.where = {file, peak.line, "tR"};
    if (!unretained.empty()) {
        feature.unretained = unretained;
        feature.warnings.push_back(unretained + ": not retained, so its place tells nothing");
    } else if (reading.ladder) {
        observe_index(feature, std::move(observation), peak, reading);
    } else if (reading.relative && reference != nullptr) {
        observe_relative(feature, std::move(observation), peak, *reference, reading);
    } else if (reading.hold_up_min) {
        observe_retention_factor(feature, std::move(observation), peak, reading);
    } else {
        observation.quantity = Quantity::tR;
        observation.value = peak.retention_time_min;
        observation.uncertainty = time_error_of(peak, reading);
        feature.observations.push_back(std::move(observation));
    }
    return feature;
}

/// Nothing is relative to what leaves with the hold-up time.
void check_is_retained(const Peak &reference, const ChromatogramReading &reading,
                       const std::string &file) {
    if (reading.relative == Quantity::r && reference.retention_time_min <= *reading.hold_up_min) {
        throw InputError(
            {file, reference.line, "tR"},
            exact_text(reference.retention_time_min) + " min of the reference",
            fmt::format("a time after the hold-up time, {} min", exact_text(*reading.hold_up_min)));
    }
}

} // namespace

FeatureSet chromatogram_features(const std::vector<Peak> &peaks, const ChromatogramReading &reading,
                                 const std::string &file) {
    FeatureSet set;
    RunScale &scale = set.scales[reading.sample];
    scale.ladder = reading.ladder;
    scale.law = reading.law;
    scale.hold_up_min = reading.hold_up_min;
    const Peak *reference = reading.reference ? &peaks[*reading.reference] : nullptr;
    if (reference != nullptr) {
        check_is_retained(*reference, reading, file);
        scale.reference_min = reference->retention_time_min;
    }
    for (const Peak &peak : peaks) {
        set.features.push_back(feature_of(peak, reference, reading, file));
    }
    return set;
}

} // namespace cospot

#include "evidence/plate_features.h"

#include "quantities/plate.h"
#include "quantities/plate_correction.h"
#include "shared/error.h"
#include "shared/quantity.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <cmath>
#include <map>
#include <memory>
#include <set>

namespace cospot {

namespace {

using quantities::PlateReference;
using quantities::Uncertain;

Uncertain mean_of(const std::vector<Uncertain> &values) {
    Uncertain mean{0.0, 0.0};
    const auto n = static_cast<double>(values.size());
    for (const Uncertain &value : values) {
        mean.value += value.value / n;
        mean.standard_uncertainty += value.standard_uncertainty * value.standard_uncertainty;
    }
    mean.standard_uncertainty = std::sqrt(mean.standard_uncertainty) / n;
    return mean;
}

/// The readings of each standard; one standard may run in several lanes.
std::map<std::string, std::vector<Uncertain>> standard_readings(const std::vector<PlateSpot> &spots,
                                                                const PlateReading &reading,
                                                                const std::string &file) {
    std::map<std::string, std::vector<Uncertain>> readings;
    std::set<std::pair<std::string, std::string>> lanes;
    for (const PlateSpot &spot : spots) {
        if (!spot.is_standard) {
            continue;
        }
        if (!lanes.emplace(spot.lane, spot.label).second) {
            throw InputError({file, spot.line, "label"},
                             "a second spot of standard " + in_quotes(spot.label) + " in its lane",
                             "one spot a standard and lane; leave out its impurities");
        }
        readings[spot.label].push_back(quantities::retardation_factor(
            spot.distance_mm, spot.front_mm, reading.reading_error_mm));
    }
    return readings;
}

/// A standard farther off, in spreads of a new reading, needs a look: by chance about one in 300
/// does (normal law).
constexpr double kMostSpreadsOff = 3.0;

constexpr double kMostCorrected = 0.1; ///< R_F

/// Plates differ by a tenth or so of R_F and by what humidity does; a standard that is off by more
/// than 0.1 and a third of its value is another compound or another plate (common practice, no
/// source).
bool is_implausible(const Uncertain &measured, const Uncertain &expected) {
    const double deviation = std::abs(measured.value - expected.value);
    return deviation > kMostCorrected && deviation > expected.value / 3;
}

/// How many spreads of a new reading the standard lies from what the library expects.
double spreads_off(const Uncertain &measured, const ExpectedRf &expected) {
    return std::abs(measured.value - expected.mean.value) /
           std::hypot(expected.spread, measured.standard_uncertainty);
}

std::string note_on_standard(const std::string &name, const Uncertain &measured,
                             const ExpectedRf &expected) {
    std::string note = fmt::format("standard {}: Rf {:.2f} on this plate, {:.2f} in the library",
                                   name, measured.value, expected.mean.value);
    const double off = spreads_off(measured, expected);
    if (off <= kMostSpreadsOff) {
        return note;
    }
    return fmt::format("! {}, {:.1f} expected spreads away (limit {:.0f}); it corrects the samples "
                       "all the same, which it would not beyond {} and a third of its value: check "
                       "its label, the eluent and the plate",
                       note, off, kMostSpreadsOff, kMostCorrected);
}

std::vector<PlateReference> usable_references(const std::vector<PlateSpot> &spots,
                                              const PlateReading &reading,
                                              const ReferenceRf &reference, const std::string &file,
                                              FeatureSet &set) {
    std::vector<PlateReference> references;
    for (const auto &[name, readings] : standard_readings(spots, reading, file)) {
        const Uncertain measured = mean_of(readings);
        const auto expected = reference(name);
        if (!expected) {
            set.needs_attention = true;
            set.notes.push_back(fmt::format("! standard {} (Rf {:.2f}) has no Rf on {} in the "
                                            "library and corrects nothing",
                                            name, measured.value, reading.system));
        } else if (is_implausible(measured, expected->mean)) {
            set.needs_attention = true;
            set.notes.push_back(
                fmt::format("! standard {}: Rf {:.2f} on this plate is too far from "
                            "{:.2f} in the library (limits {} and a third of it) and corrects "
                            "nothing: wrong label, eluent or plate?",
                            name, measured.value, expected->mean.value, kMostCorrected));
        } else if (measured.value <= 0.0 || measured.value >= 1.0 || expected->mean.value <= 0.0 ||
                   expected->mean.value >= 1.0) {
            set.notes.push_back(fmt::format(
                "standard {} runs at the start or the front and corrects nothing", name));
        } else {
            references.push_back({name, measured, expected->mean});
            set.notes.push_back(note_on_standard(name, measured, *expected));
            set.needs_attention |= spreads_off(measured, *expected) > kMostSpreadsOff;
        }
    }
    try {
        return quantities::ordered_references(std::move(references));
    } catch (const InputError &error) {
        throw InputError({file, 0, ""}, error.found(), error.expected());
    }
}

std::vector<PlateStandard> standards_of(const std::vector<PlateSpot> &spots) {
    std::vector<PlateStandard> standards;
    for (const PlateSpot &spot : spots) {
        if (spot.is_standard) {
            standards.push_back(
                {spot.lane, spot.label, spot.spot, spot.distance_mm, spot.front_mm});
        }
    }
    return standards;
}

/// Several lanes may carry the same sample; then the lane is part of the feature's name.
std::set<std::string> labels_in_several_lanes(const std::vector<PlateSpot> &spots) {
    std::map<std::string, std::set<std::string>> lanes;
    for (const PlateSpot &spot : spots) {
        lanes[spot.label].insert(spot.lane);
    }
    std::set<std::string> labels;
    for (const auto &[label, its_lanes] : lanes) {
        if (its_lanes.size() > 1) {
            labels.insert(label);
        }
    }
    return labels;
}

FeatureObservation observe(const PlateSpot &spot, const PlateReading &reading,
                           const std::vector<PlateReference> &references, const std::string &file) {
    const Uncertain read =
        quantities::retardation_factor(spot.distance_mm, spot.front_mm, reading.reading_error_mm);
    FeatureObservation observation;
    observation.system = reading.system;
    observation.quantity = Quantity::Rf;
    observation.where = {file, spot.line, "distance_mm"};
    observation.value = read.value;
    observation.uncertainty = read.standard_uncertainty;
    if (!references.empty()) {
        const Uncertain corrected = quantities::corrected_rf(references, read);
        observation.uncorrected = read.value;
        observation.value = corrected.value;
        observation.uncertainty = corrected.standard_uncertainty;
    }
    return observation;
}

} // namespace

FeatureSet plate_features(const std::vector<PlateSpot> &spots, const PlateReading &reading,
                          const ReferenceRf &reference, const std::string &file) {
    FeatureSet set;
    std::vector<PlateReference> references;
    if (reading.correct) {
        references = usable_references(spots, reading, reference, file, set);
    }
    if (!references.empty()) {
        set.notes.push_back(fmt::format("Rf of the samples corrected through {} standard{}",
                                        references.size(), references.size() > 1 ? "s" : ""));
    }
    const auto standards = std::make_shared<const std::vector<PlateStandard>>(standards_of(spots));
    const std::set<std::string> shared_labels = labels_in_several_lanes(spots);
    for (const PlateSpot &spot : spots) {
        if (spot.is_standard) {
            continue;
        }
        Feature feature;
        feature.lane = spot.lane;
        feature.plate = {spot.lane, spot.distance_mm, spot.front_mm, standards};
        feature.sample = spot.label.empty() ? "lane " + spot.lane : spot.label;
        feature.name = shared_labels.contains(spot.label)
                           ? fmt::format("lane {}, {}", spot.lane, spot.spot)
                           : spot.spot;
        feature.area = spot.area;
        feature.observations.push_back(observe(spot, reading, references, file));
        set.features.push_back(std::move(feature));
    }
    return set;
}

} // namespace cospot

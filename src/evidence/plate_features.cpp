#include "evidence/plate_features.h"

#include "evidence/cospots.h"
#include "shared/error.h"
#include "shared/quantity.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <set>

namespace cospot {

namespace {

std::vector<PlateStandard> standards_of(const std::vector<PlateSpot> &spots) {
    std::vector<PlateStandard> standards;
    for (const PlateSpot &spot : spots) {
        if (spot.role == RowRole::standard) {
            standards.push_back(
                {spot.lane, spot.label, spot.spot, spot.distance_mm, spot.front_mm.value()});
        }
    }
    return standards;
}

/// Several lanes may carry the same sample; then the lane is part of the feature's name.
std::set<std::string> labels_in_several_lanes(const std::vector<PlateSpot> &spots) {
    std::map<std::string, std::set<std::string>> lanes;
    for (const PlateSpot &spot : spots) {
        if (spot.role == RowRole::sample) {
            lanes[spot.label].insert(spot.lane);
        }
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
                           const std::string &file) {
    const quantities::Uncertain read = rf_of(spot, reading.reading_error_mm);
    FeatureObservation observation;
    observation.system = reading.system;
    observation.quantity = Quantity::Rf;
    observation.where = {file, spot.line, spot.noted_rf ? "Rf" : "distance_mm"};
    observation.value = read.value;
    observation.is_outside_library = reading.is_outside_library;
    observation.uncertainty = std::hypot(
        read.standard_uncertainty, read.value * reading.front_error_mm / spot.front_mm.value());
    return observation;
}

} // namespace

FeatureSet plate_features(const std::vector<PlateSpot> &spots, const PlateReading &reading,
                          const std::string &file) {
    FeatureSet set;
    const auto standards = std::make_shared<const std::vector<PlateStandard>>(standards_of(spots));
    const std::set<std::string> shared_labels = labels_in_several_lanes(spots);
    const std::string before = reading.plate.empty() ? "" : reading.plate + ": ";
    for (const PlateSpot &spot : spots) {
        if (spot.role == RowRole::cospot) {
            continue;
        }
        if (spot.role == RowRole::standard) {
            RunStandard standard{spot.label, spot.spot, spot.lane, reading.plate,
                                 observe(spot, reading, file)};
            standard.name_column = "label";
            set.standards.push_back(std::move(standard));
            continue;
        }
        Feature feature;
        feature.lane = spot.lane;
        feature.run = reading.plate;
        feature.date = spot.date;
        feature.plate = {spot.lane, spot.distance_mm, spot.front_mm.value(), standards,
                         spot.noted_rf.has_value()};
        feature.sample = before + (spot.label.empty() ? "lane " + spot.lane : spot.label);
        feature.name = shared_labels.contains(spot.label)
                           ? fmt::format("lane {}, {}", spot.lane, spot.spot)
                           : spot.spot;
        feature.area = spot.area;
        feature.further = spot.further;
        feature.observations.push_back(observe(spot, reading, file));
        set.features.push_back(std::move(feature));
    }
    set.cospots = cospots_of(spots, file, reading.reading_error_mm);
    for (CoSpot &cospot : set.cospots) {
        cospot.sample.insert(0, before);
    }
    return set;
}

} // namespace cospot

#include "identification/beside_standards.h"

#include "identification/run_words.h"
#include "model/matcher/recalibration.h"

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

/// Less probable than this a feature and a standard differ.
constexpr double kDiffers = 0.05;

/// The distance in a unit that a reader can see on the plate or trace.
BesideStandard distance_from(const EvidenceStandard &one, const Feature &feature,
                             const FeatureObservation &observation) {
    const RunStandard &standard = one.standard;
    BesideStandard beside;
    beside.compound = one.compound;
    beside.name = standard.compound;
    beside.place = place_of(standard);
    beside.system = observation.system;
    beside.distance = observation.value - standard.observation.value;
    beside.unit = to_text(observation.quantity);
    if (feature.plate && feature.plate->is_noted_rf) {
        beside.unit = "in Rf";
    } else if (feature.plate) {
        beside.distance *= feature.plate->front_mm;
        beside.unit = "mm";
    } else if (feature.retention_time_min && standard.retention_time_min) {
        constexpr double s_per_min = 60.0;
        beside.distance = s_per_min * (*feature.retention_time_min - *standard.retention_time_min);
        beside.unit = "s";
    }
    return beside;
}

} // namespace

std::vector<BesideStandard> beside_standards(const Feature &feature,
                                             std::span<const EvidenceStandard *const> standards,
                                             const matcher::Ranking &ranking) {
    std::vector<BesideStandard> beside;
    for (const FeatureObservation &observation : feature.observations) {
        for (const EvidenceStandard *one : standards) {
            const FeatureObservation &read = one->standard.observation;
            if (read.system != observation.system || read.quantity != observation.quantity) {
                continue;
            }
            BesideStandard &added = beside.emplace_back(distance_from(*one, feature, observation));
            added.probability = matcher::probability_of_truth(ranking, one->compound);
            added.verdict = added.probability > 0.5        ? SameOrNot::runs_with
                            : added.probability < kDiffers ? SameOrNot::differs
                                                           : SameOrNot::cannot_be_told;
        }
    }
    std::stable_sort(beside.begin(), beside.end(), [](const auto &a, const auto &b) {
        return std::abs(a.distance) < std::abs(b.distance);
    });
    return beside;
}

} // namespace cospot

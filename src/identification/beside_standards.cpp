#include "identification/beside_standards.h"

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

/// Less probable than this a feature and a standard differ.
constexpr double kDiffers = 0.05;

/// Whether the standard counts for what was observed: its label was trusted.
bool is_used(const EvidenceStandard &one, const matcher::Observation &observation) {
    return observation.standards && one.system == observation.system &&
           std::any_of(
               observation.standards->begin(), observation.standards->end(),
               [&](const matcher::StandardInRun &used) { return used.compound == one.compound; });
}

double probability_of(std::size_t compound, const matcher::Ranking &ranking) {
    const auto found =
        std::find_if(ranking.candidates.begin(), ranking.candidates.end(),
                     [&](const auto &candidate) { return candidate.compound == compound; });
    return found == ranking.candidates.end() ? 0.0 : found->probability;
}

/// The distance in a unit that a reader can see on the plate or trace.
BesideStandard distance_from(const EvidenceStandard &one, const Feature &feature,
                             const FeatureObservation &observation) {
    const RunStandard &standard = one.standard;
    BesideStandard beside;
    beside.compound = one.compound;
    beside.name = standard.compound;
    beside.place = standard.lane.empty() ? "peak " + standard.name : "lane " + standard.lane;
    beside.system = observation.system;
    beside.distance = observation.value - standard.observation.value;
    beside.unit = to_text(observation.quantity);
    if (feature.plate) {
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
                                             std::span<const matcher::Observation> observations,
                                             const matcher::Ranking &ranking,
                                             const LibraryEvidence &evidence) {
    std::vector<BesideStandard> standards;
    for (std::size_t i = 0; i < observations.size(); ++i) {
        for (const EvidenceStandard &one : evidence.standards) {
            const bool is_in_run = one.standard.run.empty() || one.standard.run == feature.run;
            if (!is_in_run || !is_used(one, observations[i])) {
                continue;
            }
            BesideStandard beside = distance_from(one, feature, feature.observations[i]);
            beside.probability = probability_of(one.compound, ranking);
            beside.verdict = beside.probability > 0.5        ? SameOrNot::runs_with
                             : beside.probability < kDiffers ? SameOrNot::differs
                                                             : SameOrNot::cannot_be_told;
            standards.push_back(std::move(beside));
        }
    }
    std::stable_sort(standards.begin(), standards.end(), [](const auto &a, const auto &b) {
        return std::abs(a.distance) < std::abs(b.distance);
    });
    return standards;
}

} // namespace cospot

#include "identification/beside_standards.h"

#include "identification/run_words.h"
#include "model/matcher/recalibration.h"

#include <algorithm>
#include <cmath>

namespace cospot {

namespace {

/// Less probable than this a feature and a standard differ.
constexpr double kDiffers = 0.05;

/// Whether the feature lies where the standard's compound would be read in this run, within three
/// spreads: farther off nothing runs with it, however little else there is to choose from.
bool is_level(std::size_t compound, std::size_t observation,
              std::span<const matcher::Observation> observations, const LibraryEvidence &evidence) {
    constexpr double spreads = 3.0;
    const auto comparisons = matcher::compare(compound, observations, evidence.knowledge.systems);
    return std::any_of(comparisons.begin(), comparisons.end(),
                       [&](const matcher::Comparison &comparison) {
                           return comparison.observation == observation &&
                                  std::abs(comparison.deviation) <= spreads * comparison.spread;
                       });
}

SameOrNot verdict_of(double probability, bool is_level) {
    if (probability < kDiffers) {
        return SameOrNot::differs;
    }
    return probability > 0.5 && is_level ? SameOrNot::runs_with : SameOrNot::cannot_be_told;
}

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

/// The same observations as if no standard ran beside them.
std::vector<matcher::Observation> without_standards(std::span<const matcher::Observation> all) {
    std::vector<matcher::Observation> alone(all.begin(), all.end());
    for (matcher::Observation &one : alone) {
        one.standards.reset();
    }
    return alone;
}

/// Whether the standard's compound might be read so far off in another run: within three spreads.
/// All standards of a plate are near, and those whose spread nobody knows.
bool is_near_standard(const EvidenceStandard &one, const Feature &feature, std::size_t observation,
                      std::span<const matcher::Observation> observations,
                      const LibraryEvidence &evidence) {
    if (feature.plate) {
        return true;
    }
    constexpr double spreads = 3.0;
    const double apart = feature.observations[observation].value - one.standard.observation.value;
    const auto comparisons =
        matcher::compare(one.compound, observations, evidence.knowledge.systems);
    return std::none_of(comparisons.begin(), comparisons.end(),
                        [&](const matcher::Comparison &comparison) {
                            return comparison.observation == observation &&
                                   std::abs(apart) > spreads * comparison.spread;
                        });
}

} // namespace

std::vector<BesideStandard> beside_standards(const Feature &feature,
                                             std::span<const matcher::Observation> observations,
                                             std::span<const EvidenceStandard *const> standards,
                                             const matcher::Ranking &ranking,
                                             const LibraryEvidence &evidence) {
    std::vector<BesideStandard> beside;
    const std::vector<matcher::Observation> alone = without_standards(observations);
    for (std::size_t i = 0; i < feature.observations.size(); ++i) {
        const FeatureObservation &observation = feature.observations[i];
        for (const EvidenceStandard *one : standards) {
            const FeatureObservation &read = one->standard.observation;
            if (read.system != observation.system || read.quantity != observation.quantity) {
                continue;
            }
            BesideStandard &added = beside.emplace_back(distance_from(*one, feature, observation));
            added.probability = matcher::probability_of_truth(ranking, one->compound);
            added.verdict =
                verdict_of(added.probability, is_level(one->compound, i, observations, evidence));
            added.is_near = is_near_standard(*one, feature, i, alone, evidence);
        }
    }
    std::stable_sort(beside.begin(), beside.end(), [](const auto &a, const auto &b) {
        return std::abs(a.distance) < std::abs(b.distance);
    });
    return beside;
}

} // namespace cospot

#include "identification/beside_standards.h"

#include "identification/run_words.h"
#include "model/matcher/recalibration.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace cospot {

namespace {

/// Less probable than this a feature and a standard differ.
constexpr double kDiffers = 0.05;

/// Farther off than so many spreads a feature is not taken for a standard's compound.
constexpr double kMostSpreads = 3.0;

/// How a standard's compound compares with one observation of a feature; nothing where it cannot.
std::optional<matcher::Comparison>
comparison_with(std::size_t compound, std::size_t observation,
                std::span<const matcher::Observation> observations,
                const LibraryEvidence &evidence) {
    for (const auto &one : matcher::compare(compound, observations, evidence.knowledge.systems)) {
        if (one.observation == observation) {
            return one;
        }
    }
    return std::nullopt;
}

/// Whether the feature lies where the standard's compound would be read in this run: else nothing
/// runs with it, however little else there is to choose from.
bool is_level(const EvidenceStandard &one, std::size_t observation,
              std::span<const matcher::Observation> observations, const LibraryEvidence &evidence) {
    const auto found = comparison_with(one.compound, observation, observations, evidence);
    return found && std::abs(found->deviation) <= kMostSpreads * found->spread;
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

/// Whether the standard's compound might be read so far off in another run. All standards of a
/// plate are near, and those whose spread nobody knows.
bool is_near_standard(const EvidenceStandard &one, const Feature &feature, std::size_t observation,
                      std::span<const matcher::Observation> observations,
                      const LibraryEvidence &evidence) {
    if (feature.plate) {
        return true;
    }
    const double apart = feature.observations[observation].value - one.standard.observation.value;
    const auto found = comparison_with(one.compound, observation, observations, evidence);
    return !found || std::abs(apart) <= kMostSpreads * found->spread;
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
            if (added.probability < kDiffers) {
                added.verdict = SameOrNot::differs;
            } else if (added.probability > 0.5 && is_level(*one, i, observations, evidence)) {
                added.verdict = SameOrNot::runs_with;
            }
            added.is_near = is_near_standard(*one, feature, i, alone, evidence);
        }
    }
    std::stable_sort(beside.begin(), beside.end(), [](const auto &a, const auto &b) {
        return std::abs(a.distance) < std::abs(b.distance);
    });
    return beside;
}

} // namespace cospot

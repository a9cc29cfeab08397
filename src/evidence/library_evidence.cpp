#include "evidence/library_evidence.h"

#include "evidence/related_systems.h"
#include "library/measurements.h"
#include "shared/text.h"

#include <algorithm>

namespace cospot {

namespace {

std::ptrdiff_t find_model(const LibraryEvidence &evidence, const FeatureObservation &observation) {
    const auto found = std::find_if(evidence.systems.begin(), evidence.systems.end(),
                                    [&](const ModelledSystem &modelled) {
                                        return modelled.system.name == observation.system &&
                                               modelled.quantity == observation.quantity;
                                    });
    return found == evidence.systems.end() ? -1 : found - evidence.systems.begin();
}

ModelledSystem modelled_system(library::Database &database, const FeatureObservation &observation) {
    const auto system = library::find_system(database, observation.system);
    if (!system) {
        throw InputError(observation.where, "system " + in_quotes(observation.system),
                         "a system that the library holds (cospot list systems)");
    }
    return {*system, observation.quantity};
}

std::vector<std::int64_t>
distinct_compounds(const std::vector<std::vector<library::HeldValue>> &held) {
    std::vector<std::int64_t> ids;
    for (const auto &values : held) {
        for (const library::HeldValue &value : values) {
            if (ids.empty() || ids.back() != value.compound) {
                ids.push_back(value.compound);
            }
        }
    }
    std::sort(ids.begin(), ids.end());
    ids.erase(std::unique(ids.begin(), ids.end()), ids.end());
    return ids;
}

matcher::SystemModel model_of(Quantity quantity, const std::vector<library::HeldValue> &held,
                              const LibraryEvidence &evidence) {
    std::vector<matcher::KnownValue> known;
    known.reserve(held.size());
    for (const library::HeldValue &value : held) {
        known.push_back({static_cast<std::size_t>(index_of_compound(evidence, value.compound)),
                         value.session, value.run_is_named, value.value});
    }
    return matcher::fit_system(quantity, known);
}

} // namespace

LibraryEvidence load_evidence(library::Database &database, const std::vector<Feature> &features) {
    LibraryEvidence evidence;
    for (const Feature &feature : features) {
        for (const FeatureObservation &observation : feature.observations) {
            if (find_model(evidence, observation) < 0) {
                evidence.systems.push_back(modelled_system(database, observation));
            }
        }
    }
    const std::vector<ModelledSystem> related = related_systems(database, evidence.systems);
    std::vector<ModelledSystem> all = evidence.systems;
    all.insert(all.end(), related.begin(), related.end());
    std::vector<std::vector<library::HeldValue>> held;
    for (const ModelledSystem &modelled : all) {
        held.push_back(library::values_on_system(database, modelled.system.id, modelled.quantity));
    }
    evidence.compound_ids = distinct_compounds(held);
    for (std::size_t i = 0; i < evidence.systems.size(); ++i) {
        evidence.knowledge.systems.push_back(
            model_of(evidence.systems[i].quantity, held[i], evidence));
    }
    std::vector<matcher::SystemModel> related_models;
    for (std::size_t i = 0; i < related.size(); ++i) {
        related_models.push_back(
            model_of(related[i].quantity, held[evidence.systems.size() + i], evidence));
    }
    evidence.notes = transfer_between_systems(evidence, related, related_models);
    return evidence;
}

std::size_t model_index(const LibraryEvidence &evidence, const FeatureObservation &observation) {
    return static_cast<std::size_t>(find_model(evidence, observation));
}

std::vector<matcher::Observation> observations_of(const Feature &feature,
                                                  const LibraryEvidence &evidence) {
    std::vector<matcher::Observation> observations;
    for (const FeatureObservation &observation : feature.observations) {
        observations.push_back(
            {model_index(evidence, observation), observation.value, observation.uncertainty});
    }
    return observations;
}

std::size_t compound_count(const LibraryEvidence &evidence) {
    return evidence.compound_ids.size() + evidence.proposed.size();
}

std::ptrdiff_t index_of_compound(const LibraryEvidence &evidence, std::int64_t id) {
    const auto found =
        std::lower_bound(evidence.compound_ids.begin(), evidence.compound_ids.end(), id);
    return found != evidence.compound_ids.end() && *found == id
               ? found - evidence.compound_ids.begin()
               : -1;
}

} // namespace cospot

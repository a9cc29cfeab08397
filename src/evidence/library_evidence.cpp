#include "evidence/library_evidence.h"

#include "evidence/related_systems.h"
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

std::vector<std::int64_t> distinct_compounds(const std::vector<SystemValues> &observed,
                                             const std::vector<SystemValues> &related) {
    std::vector<std::int64_t> ids;
    for (const std::vector<SystemValues> *systems : {&observed, &related}) {
        for (const SystemValues &system : *systems) {
            for (const library::HeldValue &value : system.held) {
                if (ids.empty() || ids.back() != value.compound) {
                    ids.push_back(value.compound);
                }
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

SystemValues values_of(library::Database &database, const ModelledSystem &modelled) {
    return {modelled, library::values_on_system(database, modelled.system.id, modelled.quantity)};
}

LibraryEvidence evidence_from(const std::vector<SystemValues> &observed,
                              const std::vector<SystemValues> &related) {
    LibraryEvidence evidence;
    evidence.compound_ids = distinct_compounds(observed, related);
    for (const SystemValues &system : observed) {
        evidence.systems.push_back(system.modelled);
        evidence.knowledge.systems.push_back(
            model_of(system.modelled.quantity, system.held, evidence));
    }
    std::vector<ModelledSystem> others;
    std::vector<matcher::SystemModel> other_models;
    for (const SystemValues &system : related) {
        others.push_back(system.modelled);
        other_models.push_back(model_of(system.modelled.quantity, system.held, evidence));
    }
    evidence.notes = transfer_between_systems(evidence, others, other_models);
    return evidence;
}

LibraryEvidence load_evidence(library::Database &database, const std::vector<Feature> &features) {
    LibraryEvidence named; // only the systems, to look them up
    std::vector<SystemValues> observed;
    for (const Feature &feature : features) {
        for (const FeatureObservation &observation : feature.observations) {
            if (find_model(named, observation) < 0) {
                named.systems.push_back(modelled_system(database, observation));
                observed.push_back(values_of(database, named.systems.back()));
            }
        }
    }
    std::vector<SystemValues> related;
    for (const ModelledSystem &modelled : related_systems(database, named.systems)) {
        related.push_back(values_of(database, modelled));
    }
    return evidence_from(observed, related);
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

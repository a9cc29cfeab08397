#include "evidence/library_evidence.h"

#include "evidence/fitted_system.h"
#include "evidence/related_systems.h"
#include "library/compounds.h"
#include "library/names.h"
#include "library/overview.h"
#include "shared/text.h"

#include <algorithm>
#include <iterator>
#include <unordered_map>
#include <utility>

namespace cospot {

std::optional<std::size_t> find_model(const LibraryEvidence &evidence,
                                      const FeatureObservation &observation) {
    const auto found = std::find_if(evidence.systems.begin(), evidence.systems.end(),
                                    [&](const ModelledSystem &modelled) {
                                        return modelled.system.name == observation.system &&
                                               modelled.quantity == observation.quantity;
                                    });
    return found == evidence.systems.end()
               ? std::nullopt
               : std::optional(static_cast<std::size_t>(found - evidence.systems.begin()));
}

namespace {

ModelledSystem modelled_system(library::Database &database, const FeatureObservation &observation) {
    if (observation.is_outside_library) {
        library::System system;
        system.name = observation.system;
        system.technique = Technique::tlc;
        return {system, observation.quantity};
    }
    const library::System system = system_named(database, observation.system, observation.where);
    ModelledSystem modelled{system, observation.quantity};
    if (!system.retired &&
        library::values_up_to(database, system.id, observation.quantity, 1) == 0) {
        modelled.held_instead = library::quantities_on_system(database, system.id);
    }
    return modelled;
}

FittedSystem fitted(library::Database &database, const ModelledSystem &modelled) {
    return {modelled, fitted_system(database, modelled.system.id, modelled.quantity)};
}

LibraryEvidence with_related(library::Database &database, std::vector<FittedSystem> observed,
                             const RelatedSystems &others) {
    std::vector<FittedSystem> related;
    for (const ModelledSystem &modelled : others.systems) {
        related.push_back(fitted(database, modelled));
    }
    std::vector<library::CompoundId> compounds =
        library::in_order_of_inchikeys(database, all_compounds(observed, related));
    LibraryEvidence evidence =
        evidence_from(std::move(observed), std::move(related), std::move(compounds));
    evidence.notes.insert(evidence.notes.end(), others.notes.begin(), others.notes.end());
    return evidence;
}

} // namespace

std::vector<library::CompoundId> all_compounds(const std::vector<FittedSystem> &observed,
                                               const std::vector<FittedSystem> &related) {
    std::vector<library::CompoundId> ids;
    std::vector<library::CompoundId> merged;
    for (const std::vector<FittedSystem> *systems : {&observed, &related}) {
        for (const FittedSystem &system : *systems) {
            std::vector<library::CompoundId> own;
            own.reserve(system.model.candidates.size());
            for (const matcher::CandidateDensity &candidate : system.model.candidates) {
                own.push_back(library::CompoundId(candidate.compound));
            }
            merged.clear();
            std::set_union(ids.begin(), ids.end(), own.begin(), own.end(),
                           std::back_inserter(merged));
            ids.swap(merged);
        }
    }
    return ids;
}

LibraryEvidence evidence_from(std::vector<FittedSystem> observed, std::vector<FittedSystem> related,
                              std::vector<library::CompoundId> compounds) {
    LibraryEvidence evidence;
    evidence.compound_ids = std::move(compounds);
    std::unordered_map<library::CompoundId, std::size_t> indices;
    for (const library::CompoundId id : evidence.compound_ids) {
        indices.emplace(id, indices.size());
    }
    const auto by_index = [&](matcher::SystemModel model) {
        std::vector<std::size_t> own;
        own.reserve(model.candidates.size());
        for (matcher::CandidateDensity &candidate : model.candidates) {
            own.push_back(indices.at(library::CompoundId(candidate.compound)));
            candidate.compound = own.size() - 1;
        }
        return renumbered(std::move(model), own);
    };
    for (FittedSystem &system : observed) {
        evidence.systems.push_back(system.modelled);
        evidence.knowledge.systems.push_back(by_index(std::move(system.model)));
    }
    std::vector<ModelledSystem> others;
    std::vector<matcher::SystemModel> other_models;
    for (FittedSystem &system : related) {
        others.push_back(system.modelled);
        other_models.push_back(by_index(std::move(system.model)));
    }
    evidence.notes = transfer_between_systems(evidence, others, other_models);
    for (const matcher::SystemModel &model : evidence.knowledge.systems) {
        evidence.transferred.push_back(static_cast<std::size_t>(std::count_if(
            model.candidates.begin(), model.candidates.end(),
            [](const auto &candidate) { return candidate.basis == matcher::Basis::transferred; })));
    }
    evidence.nearby = matcher::nearby_candidates(evidence.knowledge);
    return evidence;
}

LibraryEvidence load_evidence(library::Database &database, const std::vector<Feature> &features,
                              Extent extent) {
    LibraryEvidence named;                          // only the systems, to look them up
    std::vector<matcher::Observation> observations; // for the case that all are of one system
    for (const Feature &feature : features) {
        for (const FeatureObservation &observation : feature.observations) {
            if (!find_model(named, observation)) {
                named.systems.push_back(modelled_system(database, observation));
            }
            observations.push_back({0, observation.value, observation.uncertainty, {}, {}});
        }
    }
    const bool is_outside =
        std::any_of(named.systems.begin(), named.systems.end(), [](const ModelledSystem &modelled) {
            return modelled.system.id == library::SystemId{};
        });
    const RelatedSystems others =
        is_outside ? RelatedSystems{} : related_systems(database, named.systems);
    std::vector<FittedSystem> observed;
    if (extent == Extent::within_reach && named.systems.size() == 1 && others.systems.empty()) {
        const ModelledSystem &only = named.systems.front();
        observed.push_back(
            {only, fitted_within_reach(database, only.system.id, only.quantity, observations)});
    } else {
        for (const ModelledSystem &modelled : named.systems) {
            observed.push_back(fitted(database, modelled));
        }
    }
    return with_related(database, std::move(observed), others);
}

LibraryEvidence load_evidence_on(library::Database &database,
                                 const std::vector<ModelledSystem> &systems) {
    const RelatedSystems others = related_systems(database, systems);
    std::vector<FittedSystem> observed;
    for (const ModelledSystem &modelled : systems) {
        observed.push_back(fitted(database, modelled));
    }
    return with_related(database, std::move(observed), others);
}

std::size_t model_index(const LibraryEvidence &evidence, const FeatureObservation &observation) {
    return find_model(evidence, observation).value();
}

std::vector<matcher::Observation> observations_of(const Feature &feature,
                                                  const LibraryEvidence &evidence) {
    std::vector<matcher::Observation> observations;
    for (const FeatureObservation &observation : feature.observations) {
        observations.push_back({model_index(evidence, observation),
                                observation.value,
                                observation.uncertainty,
                                {},
                                {}});
    }
    return observations;
}

std::size_t possible_compounds(const LibraryEvidence &evidence) {
    std::size_t count = compound_count(evidence);
    for (const matcher::SystemModel &model : evidence.knowledge.systems) {
        count += model.out_of_reach;
    }
    return count;
}

std::size_t compound_count(const LibraryEvidence &evidence) {
    return evidence.compound_ids.size() + evidence.proposed.size();
}

bool is_little_measured(const LibraryEvidence &evidence, const std::set<std::size_t> &systems) {
    std::size_t transferred = 0;
    std::size_t all = 0;
    for (const std::size_t system : systems) {
        transferred += evidence.transferred[system];
        all += matcher::candidate_count(evidence.knowledge.systems[system]);
    }
    return 2 * transferred > all;
}

std::optional<std::size_t> index_of_compound(const LibraryEvidence &evidence,
                                             library::CompoundId id) {
    const auto found = std::find(evidence.compound_ids.begin(), evidence.compound_ids.end(), id);
    return found == evidence.compound_ids.end()
               ? std::nullopt
               : std::optional(static_cast<std::size_t>(found - evidence.compound_ids.begin()));
}

} // namespace cospot

#pragma once

#include "evidence/further_evidence.h"
#include "library/database.h"
#include "library/systems.h"
#include "model/matcher/likelihood.h"
#include "readers/feature.h"

#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace cospot {

/// One quantity on one system, as the library knows it.
struct ModelledSystem {
    library::System system;
    Quantity quantity = Quantity::Rf;
    std::vector<Quantity> held_instead{}; ///< of an observed one where the library holds no value
};

/// A compound that the user suspects, or a standard, that none of the observed systems holds.
struct ProposedStructure {
    std::string name;
    std::string inchikey;
    std::string smiles;
};

/// A standard beside some features, with its compound.
struct EvidenceStandard {
    RunStandard standard;
    std::size_t compound = 0; ///< index, of the library's compounds or of the proposed ones
    std::size_t system = 0;   ///< index of its model
};

/// What the library holds on the systems of some features, ready for the matcher.
struct LibraryEvidence {
    std::vector<library::CompoundId> compound_ids; ///< of each compound index
    std::vector<ProposedStructure> proposed;       ///< their indices follow those of `compound_ids`
    std::vector<ModelledSystem> systems;
    std::vector<std::size_t> transferred;                ///< candidates of each, from elsewhere
    matcher::Knowledge knowledge;                        ///< a model for each of `systems`
    std::vector<matcher::NearbyCandidates> nearby;       ///< of `knowledge`
    std::vector<std::string> notes;                      ///< which systems told about others
    std::vector<EvidenceStandard> standards;             ///< that ran beside the features
    std::vector<std::pair<CoSpot, std::size_t>> cospots; ///< of their plate, with the compound
    std::vector<CompoundTraits> traits; ///< one a compound index; empty where no feature needs them
};

/// A system with its model, whose compounds are numbered by their ids in the library.
struct FittedSystem {
    ModelledSystem modelled;
    matcher::SystemModel model;
};

/// The compounds of all these models, ascending.
[[nodiscard]] std::vector<library::CompoundId>
all_compounds(const std::vector<FittedSystem> &observed, const std::vector<FittedSystem> &related);

/// What the models say together: those of the observed systems, and what they and the related ones
/// tell about compounds that were not measured on an observed one. `compounds` are those of
/// `all_compounds` in the order that gives them their indices. What is left out or drawn goes by
/// that order, so it must not be that of the ids where answers may not depend on what was learned
/// first.
[[nodiscard]] LibraryEvidence evidence_from(std::vector<FittedSystem> observed,
                                            std::vector<FittedSystem> related,
                                            std::vector<library::CompoundId> compounds);

/// Which candidates are loaded.
enum class Extent {
    all,
    /// Those that may have shown what was observed; the others are only counted. Where more than
    /// one system tells about the features, it is all of them nevertheless.
    within_reach
};

/// Loads what is known of every system and quantity that the features were observed with, and what
/// other systems tell about compounds that were not measured on them. Throws
/// InputError, with the place of the observation, for a system that the library does not hold.
[[nodiscard]] LibraryEvidence load_evidence(library::Database &database,
                                            const std::vector<Feature> &features,
                                            Extent extent = Extent::all);

/// The same for systems and quantities that nothing was observed on.
[[nodiscard]] LibraryEvidence load_evidence_on(library::Database &database,
                                               const std::vector<ModelledSystem> &systems);

/// Index of the model for what was observed, if there is one.
[[nodiscard]] std::optional<std::size_t> find_model(const LibraryEvidence &evidence,
                                                    const FeatureObservation &observation);

/// Index of the model that an observation is judged by.
[[nodiscard]] std::size_t model_index(const LibraryEvidence &evidence,
                                      const FeatureObservation &observation);

/// The observations of a feature in the matcher's terms.
[[nodiscard]] std::vector<matcher::Observation> observations_of(const Feature &feature,
                                                                const LibraryEvidence &evidence);

/// How many compounds a feature could be, those that are only counted among them.
[[nodiscard]] std::size_t possible_compounds(const LibraryEvidence &evidence);

/// How many compound indices there are.
[[nodiscard]] std::size_t compound_count(const LibraryEvidence &evidence);

/// Whether little is measured on these systems: other systems told what more than half of their
/// candidates are expected to show.
[[nodiscard]] bool is_little_measured(const LibraryEvidence &evidence,
                                      const std::set<std::size_t> &systems);

/// Index of a compound of the library; none where it is no candidate on any of the systems.
[[nodiscard]] std::optional<std::size_t> index_of_compound(const LibraryEvidence &evidence,
                                                           library::CompoundId id);

} // namespace cospot

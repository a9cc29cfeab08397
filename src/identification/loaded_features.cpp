#include "identification/loaded_features.h"

#include "evidence/compound_traits.h"
#include "evidence/run_standards.h"
#include "expectation/asked_compounds.h"
#include "expectation/proposed_compounds.h"
#include "library/retire.h"
#include "readers/input_file.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace cospot {

namespace {

/// A retired compound is no candidate, whoever proposes it.
std::vector<AskedCompound> without_retired(std::vector<AskedCompound> asked,
                                           library::Database &database,
                                           std::vector<std::string> &notes) {
    std::erase_if(asked, [&](const AskedCompound &one) {
        const bool is_retired =
            one.id && library::retirement_of_compound(database, *one.id).has_value();
        if (is_retired) {
            notes.push_back(one.name + ": retired in the library; it is left out as a candidate");
        }
        return is_retired;
    });
    return asked;
}

} // namespace

LoadedFeatures load_features(library::Database &database, FeatureSet set, Extent extent,
                             const std::optional<std::string> &also, std::istream &standard_input) {
    LoadedFeatures loaded{std::move(set), {}};
    const std::vector<Feature> &features = loaded.set.features;
    const bool are_traits_needed =
        std::any_of(features.begin(), features.end(),
                    [](const Feature &feature) { return !is_empty(feature.further); });
    // What an unlisted compound would show beside retention is the mean of all that are listed.
    // A standard is compared with what the library holds of it, wherever that lies.
    const bool is_all_needed =
        also.has_value() || are_traits_needed || !loaded.set.standards.empty();
    loaded.evidence = load_evidence(database, features, is_all_needed ? Extent::all : extent);
    if (also) {
        InputFile file(*also, standard_input);
        const auto asked =
            without_retired(asked_in_file(file, database), database, loaded.set.notes);
        const auto notes = propose_compounds(loaded.evidence, database, asked);
        loaded.set.notes.insert(loaded.set.notes.end(), notes.begin(), notes.end());
    }
    add_cospots(loaded.evidence, database, loaded.set.cospots);
    add_standards(loaded.evidence, database, loaded.set.standards, loaded.set.notes);
    if (are_traits_needed) {
        loaded.evidence.traits = load_traits(database, loaded.evidence);
    }
    return loaded;
}

bool needs_attention(const FeatureSet &set, const LibraryEvidence &evidence) {
    return set.needs_attention ||
           (evidence.standards.empty() &&
            std::any_of(evidence.knowledge.systems.begin(), evidence.knowledge.systems.end(),
                        [](const auto &model) { return matcher::candidate_count(model) == 0; }));
}

} // namespace cospot

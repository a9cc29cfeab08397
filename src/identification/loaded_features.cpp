#include "identification/loaded_features.h"

#include "evidence/compound_traits.h"
#include "evidence/proposed_compounds.h"
#include "expectation/asked_compounds.h"
#include "readers/input_file.h"

#include <algorithm>
#include <utility>

namespace cospot {

LoadedFeatures load_features(library::Database &database, FeatureSet set, Extent extent,
                             const std::optional<std::string> &also, std::istream &standard_input) {
    LoadedFeatures loaded{std::move(set), {}};
    loaded.evidence = load_evidence(database, loaded.set.features, also ? Extent::all : extent);
    if (also) {
        InputFile file(*also, standard_input);
        const auto notes =
            propose_compounds(loaded.evidence, database, asked_in_file(file, database));
        loaded.set.notes.insert(loaded.set.notes.end(), notes.begin(), notes.end());
    }
    if (std::any_of(loaded.set.features.begin(), loaded.set.features.end(),
                    [](const Feature &feature) { return !is_empty(feature.further); })) {
        loaded.evidence.traits = load_traits(database, loaded.evidence);
    }
    return loaded;
}

} // namespace cospot

#include "identification/component_names.h"

#include "evidence/library_evidence.h"
#include "identification/proof_corrections.h"
#include "library/names.h"
#include "quantities/plate.h"
#include "shared/error.h"
#include "shared/text.h"

#include <utility>

namespace cospot {

namespace {

constexpr std::size_t kCandidates = 50; ///< among which a wanted compound is looked for

std::vector<Feature> features_of_components(const fractions::ColumnRun &run,
                                            const ComponentReading &reading,
                                            const std::string &system) {
    std::vector<Feature> features;
    for (const fractions::Component &component : run.components) {
        FeatureObservation observation;
        observation.system = system;
        observation.quantity = Quantity::Rf;
        observation.value = component.rf.value();
        observation.uncertainty =
            quantities::retardation_factor(observation.value * reading.front_mm, reading.front_mm,
                                           reading.reading_error_mm)
                .standard_uncertainty;
        observation.where = {"command line, --system", 0, ""};
        Feature feature;
        feature.name = component.name;
        feature.observations.push_back(observation);
        features.push_back(std::move(feature));
    }
    return features;
}

} // namespace

ComponentNames name_components(const fractions::ColumnRun &run, const ComponentReading &reading,
                               library::Database &database) {
    const Where where{"command line, --system", 0, ""};
    const library::System system = system_named(database, reading.system, where);
    if (!can_show(system.technique, Quantity::Rf)) {
        throw InputError(where, in_quotes(reading.system) + ", which shows no R_F",
                         "the system on which the plates were developed");
    }
    const std::vector<Feature> features = features_of_components(run, reading, system.name);
    ComponentNames names;
    if (features.empty()) {
        return names;
    }
    const LibraryEvidence evidence = load_evidence(database, features);
    IdentificationOptions options;
    options.fills_set = false;
    options.top = kCandidates;
    names.notes = evidence.notes;
    apply_proofs(options, features, evidence, database, names.notes);
    KnownCompounds compounds(evidence, database);
    RunIdentification identified = identify_run(all_of(features), evidence, compounds, options);
    SampleIdentification &sample = identified.samples.front(); // the components are one sample
    names.components = std::move(sample.features);
    names.notes.insert(names.notes.end(), identified.notes.begin(), identified.notes.end());
    names.notes.insert(names.notes.end(), sample.notes.begin(), sample.notes.end());
    return names;
}

} // namespace cospot

#include "identification/proof_corrections.h"

#include "library/proofs.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot {

namespace {

bool is_seen_on_several(const Feature &feature) {
    return std::any_of(feature.observations.begin(), feature.observations.end(),
                       [&](const FeatureObservation &other) {
                           return other.system != feature.observations.front().system;
                       });
}

} // namespace

void apply_proofs(IdentificationOptions &how, const std::vector<Feature> &features,
                  const LibraryEvidence &evidence, library::Database &database,
                  std::vector<std::string> &notes) {
    for (const bool several : {false, true}) {
        const bool is_asked =
            std::any_of(features.begin(), features.end(), [&](const Feature &feature) {
                return !feature.observations.empty() && is_seen_on_several(feature) == several;
            });
        if (!is_asked || evidence.systems.empty()) {
            continue;
        }
        const char *seen_on = several ? "several systems" : "one system";
        const auto proof =
            library::newest_proof(database, evidence.systems.front().system.technique, several);
        if (proof) {
            how.recalibrations[several ? 1 : 0] = {proof->exponent, proof->least_in_set};
            notes.push_back(fmt::format("probabilities of features seen on {} are corrected by the "
                                        "proof of {} ({} questions, calibration error {:.3f})",
                                        seen_on, proof->at_utc.substr(0, 10), proof->questions,
                                        proof->calibration_error));
        } else {
            notes.push_back(fmt::format("how often this library is right about features seen on {} "
                                        "was never tried (cospot prove)",
                                        seen_on));
        }
    }
}

} // namespace cospot

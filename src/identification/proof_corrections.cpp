#include "identification/proof_corrections.h"

#include "library/proofs.h"

#include <fmt/format.h>

#include <set>
#include <string>

namespace cospot {

namespace {

std::string words_of(const ProvedKind &kind) {
    return fmt::format("features seen on {} {} system{}", kind.several_systems ? "several" : "one",
                       to_text(kind.technique), kind.several_systems ? "s" : "");
}

std::string proved_note(const library::Proof &proof, const ProvedKind &kind) {
    const std::string day = proof.at_utc.substr(0, 10);
    const std::string figures = fmt::format("({} questions, calibration error {:.3f})",
                                            proof.questions, proof.calibration_error);
    return proof.exponent == 1.0
               ? fmt::format("probabilities of {} were proved on {} and need no correction {}",
                             words_of(kind), day, figures)
               : fmt::format("probabilities of {} are corrected by the proof of {} {}",
                             words_of(kind), day, figures);
}

std::string unproved_note(library::Database &database, const ProvedKind &kind) {
    const std::string day = library::newest_proof_day(database);
    return day.empty()
               ? fmt::format("how often this library is right about {} was never tried (cospot "
                             "prove)",
                             words_of(kind))
               : fmt::format("how often this library is right about {} is not known: the proof of "
                             "{} had too few of them to ask for (cospot prove --dry-run says what "
                             "it needs)",
                             words_of(kind), day);
}

} // namespace

void apply_proofs(IdentificationOptions &how, const std::vector<Feature> &features,
                  const LibraryEvidence &evidence, library::Database &database,
                  std::vector<std::string> &notes) {
    std::set<ProvedKind> asked;
    bool is_any_mixed = false;
    for (const Feature &feature : features) {
        if (const auto kind = proved_kind(feature, evidence)) {
            asked.insert(*kind);
        } else {
            is_any_mixed = is_any_mixed || !feature.observations.empty();
        }
    }
    for (const ProvedKind &kind : asked) {
        const auto proof = library::newest_proof(database, kind.technique, kind.several_systems);
        if (proof) {
            how.recalibrations[kind] = {proof->exponent, proof->least_in_set};
        }
        notes.push_back(proof ? proved_note(*proof, kind) : unproved_note(database, kind));
    }
    if (is_any_mixed) {
        notes.emplace_back("probabilities of features seen by several techniques stay as computed: "
                           "a proof is of one technique");
    }
}

} // namespace cospot

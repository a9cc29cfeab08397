#include "identification/proof_corrections.h"

#include "library/proofs.h"

#include <fmt/format.h>

#include <cstdint>
#include <optional>
#include <set>
#include <string>

namespace cospot {

namespace {

using library::Proof;
using library::ProofQuestion;

/// "one HPLC system", "two TLC systems with few measured values"
std::string systems_words(const ProvedKind &kind) {
    const std::string count = kind.systems == 1   ? "one"
                              : kind.systems == 2 ? "two"
                                                  : "three or more";
    return fmt::format("{} {} system{}{}", count, in_words(kind.technique),
                       kind.systems > 1 ? "s" : "",
                       kind.little_measured ? " of which little is measured" : "");
}

std::string words_of(const ProvedKind &kind) {
    return "features seen on " + systems_words(kind);
}

bool is_corrected(const Proof &proof) {
    return proof.measured_exponent != 1.0 || proof.transferred_exponent != 1.0 ||
           proof.unlisted_offset != 0.0;
}

/// What the proof asked for, where the words for the kind do not say it.
std::string asked_words(ProofQuestion question) {
    switch (question) {
    case ProofQuestion::run:
        return ", which asked about further runs";
    case ProofQuestion::day:
        return ", which asked about new days";
    case ProofQuestion::new_system:
        break;
    }
    return "";
}

std::string proved_note(const Proof &proof, const ProvedKind &kind) {
    const std::string day = proof.at_utc.substr(0, 10);
    const std::string figures = fmt::format("({} questions, calibration error {:.3f})",
                                            proof.questions, proof.calibration_error);
    const std::string asked = asked_words(proof.question);
    return is_corrected(proof)
               ? fmt::format("probabilities of {} are corrected by the proof of {}{} {}",
                             words_of(kind), day, asked, figures)
               : fmt::format("probabilities of {} were proved on {} and need no correction {}",
                             words_of(kind), day, figures);
}

std::string unproved_note(library::Database &database, const ProvedKind &kind) {
    const std::string day = library::newest_proof_day(database);
    const std::string outdated = library::day_of_outdated_proof(database);
    if (!outdated.empty()) {
        return fmt::format("the proof of {} is not used: an earlier version learned one correction "
                           "for all questions; prove the library again (cospot prove) for {}",
                           outdated, words_of(kind));
    }
    const std::string corrected = library::day_of_proof_before_correction(database, kind.technique);
    if (!corrected.empty()) {
        return fmt::format("the proof of {} is not used: the structure of a compound was corrected "
                           "since; prove the library again (cospot prove) for {}",
                           corrected, words_of(kind));
    }
    return day.empty()
               ? fmt::format("not yet validated for {} (run cospot prove)", systems_words(kind))
               : fmt::format("not yet validated for {}: the proof of {} had too few values to ask "
                             "for (cospot prove --dry-run says what it needs)",
                             systems_words(kind), day);
}

/// The proof that asked what such features ask. Of a system that is well measured they ask what it
/// shows on a new day; that is told by further runs where days are not known.
std::optional<Proof> proof_for(library::Database &database, const ProvedKind &kind) {
    const auto systems = static_cast<std::int64_t>(kind.systems);
    const auto newest = [&](ProofQuestion question) {
        return library::newest_proof(database, kind.technique, question, systems);
    };
    if (kind.little_measured) {
        return newest(ProofQuestion::new_system);
    }
    const auto of_days = newest(ProofQuestion::day);
    return of_days ? of_days : newest(ProofQuestion::run);
}

matcher::Recalibration correction_of(const Proof &proof) {
    return {{proof.measured_exponent, proof.measured_limit},
            {proof.transferred_exponent, proof.transferred_limit},
            proof.unlisted_offset,
            proof.unlisted_limit};
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
        const auto proof = proof_for(database, kind);
        if (proof) {
            how.recalibrations[kind] = correction_of(*proof);
        }
        notes.push_back(proof ? proved_note(*proof, kind) : unproved_note(database, kind));
    }
    if (is_any_mixed) {
        notes.emplace_back("probabilities of features seen by several techniques stay as computed: "
                           "a proof is of one technique");
    }
}

} // namespace cospot

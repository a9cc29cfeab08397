#include "prove/proof_words.h"

#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cmath>
#include <utility>
#include <vector>

namespace cospot {

namespace {

using library::ProofQuestion;

const char *const kTooSure = " That is too sure: read its probabilities as an order only, look for "
                             "values that contradict each other (cospot audit), and measure more "
                             "runs.";

std::string reliability_sentence(const Reliability &reliability) {
    const ReliabilityBin sure = verdict(reliability);
    if (sure.count == 0) {
        return "nothing was stated with 80 % or more.";
    }
    if (sure.count < kFewStatements) {
        return fmt::format("only {} with 80 % or more, too few to judge.",
                           counted(sure.count, "statement"));
    }
    return fmt::format("when this library says {:.0f} %, it is right {:.0f} % of the time (n = "
                       "{}).{}",
                       100 * sure.stated, 100 * sure.right, sure.count,
                       is_too_sure(sure) ? kTooSure : "");
}

/// "odds between measured candidates to the power 0.87", each for itself
std::vector<std::string> corrections(const matcher::Recalibration &learned) {
    std::vector<std::string> words;
    for (const auto &[basis, correction] :
         {std::pair{"measured", learned.measured}, std::pair{"transferred", learned.transferred}}) {
        if (correction.exponent != 1.0) {
            words.push_back(fmt::format("odds between {} candidates to the power {:.2f}", basis,
                                        correction.exponent));
        }
    }
    if (learned.unlisted_offset != 0.0) {
        words.push_back(
            fmt::format("odds of unlisted times {:.2f}", std::exp(learned.unlisted_offset)));
    }
    return words;
}

} // namespace

std::string question_words(ProofQuestion question, std::size_t systems) {
    std::string words;
    switch (question) {
    case ProofQuestion::run:
        words = "a run like the library's own";
        break;
    case ProofQuestion::day:
        words = "a new day";
        break;
    case ProofQuestion::new_system:
        words = "a system of which little is measured";
        break;
    }
    return fmt::format("{}, features on {}", words,
                       systems == 1   ? "one system"
                       : systems == 2 ? "two systems"
                                      : "three or more systems");
}

std::string subject_words(const ProvedQuestion &proof) {
    return fmt::format("{}: {}", in_words(proof.technique),
                       question_words(proof.question, proof.systems));
}

std::string compound_words(matcher::Basis basis) {
    switch (basis) {
    case matcher::Basis::same_run:
        return "a compound beside its standard";
    case matcher::Basis::measured:
        return "a measured compound";
    case matcher::Basis::transferred:
        return "a transferred compound";
    case matcher::Basis::predicted:
        break;
    }
    return "a predicted compound";
}

std::string asked_sentence(ProofQuestion question) {
    switch (question) {
    case ProofQuestion::run:
        return "Left out and asked for: whole runs, or single values where their run is not named.";
    case ProofQuestion::day:
        return "Left out and asked for: all runs of a day.";
    case ProofQuestion::new_system:
        return "Left out and asked for: most compounds of a system, so that other systems tell "
               "what they show there.";
    }
    return "";
}

std::string verdict_sentence(const Reliability &reliability) {
    return "All compounds and unlisted together: " + reliability_sentence(reliability);
}

std::string verdict_sentence(const BasisResult &result) {
    return fmt::format("A{}: {} Candidate sets hold {:.0f} % of {}.",
                       compound_words(result.basis).substr(1),
                       reliability_sentence(result.corrected), 100 * result.corrected.set_coverage,
                       counted(result.questions, "such compound"));
}

std::string verdict_sentence(const AbsentResult &result) {
    if (result.questions == 0) {
        return "A compound the library lacks: none was asked for.";
    }
    return fmt::format(
        "A compound the library lacks: {} of {} were taken for one of its own with 80 % or more. "
        "On average unlisted gets {:.0f} % for such compounds, {:.0f} % for those that the library "
        "holds.",
        result.claimed, result.questions, 100 * result.unlisted, 100 * result.of_present);
}

std::string correction_sentence(const ProofResult &proof) {
    const std::string figures = fmt::format(
        "log loss {:.4f} as computed, {:.4f} corrected; calibration error {:.3f} and {:.3f}; on "
        "values that the correction was not learned from",
        proof.as_stated.log_loss,
        proof.is_corrected ? proof.corrected.log_loss : proof.tried_log_loss,
        proof.as_stated.calibration_error,
        proof.is_corrected ? proof.corrected.calibration_error : proof.tried_calibration_error);
    return proof.is_corrected
               ? fmt::format("Corrected: {} ({}).",
                             fmt::join(corrections(proof.recalibration), "; "), figures)
               : fmt::format("No correction: none is clearly better than as computed ({}).",
                             figures);
}

std::string untried_sentence(const UntriedQuestion &untried) {
    switch (untried.kind) {
    case UntriedKind::several_systems:
        return fmt::format("{}, features seen on several systems. {} could be left out on two "
                           "systems at once, {} are needed: run the same standards on both systems "
                           "on the same days, five or more, and give the dates.",
                           in_words(untried.technique), counted(untried.questions, "compound"),
                           kFewestQuestions);
    case UntriedKind::one_system:
        return fmt::format("{}, features seen on one system. {} could be left out and asked for, "
                           "{} are needed: measure compounds that the library holds in further "
                           "runs.",
                           in_words(untried.technique), counted(untried.questions, "value"),
                           kFewestQuestions);
    case UntriedKind::new_system:
        return fmt::format("{}, a system of which little is measured. {} that other systems tell "
                           "about could be left out and asked for, {} are needed: measure 30 "
                           "compounds or more on two systems of one kind.",
                           in_words(untried.technique), counted(untried.questions, "value"),
                           kFewestQuestions);
    }
    return "";
}

std::string nothing_to_prove() {
    return fmt::format("Nothing to prove: no technique has {} values that could be left out and "
                       "asked for.",
                       kFewestQuestions);
}

} // namespace cospot

#include "output/verdict_text.h"

#include "output/basis_text.h"

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

/// `of` tells of what: " of a measured compound"; empty: of anything.
std::string verdict_of(const Reliability &reliability, const std::string &of) {
    const ReliabilityBin sure = verdict(reliability);
    if (sure.count == 0) {
        return fmt::format("Nothing{} was stated with 80 % or more.", of);
    }
    if (sure.count < kFewStatements) {
        return fmt::format(
            "Only {} statement{}{} {} made with 80 % or more: too few to judge them.", sure.count,
            sure.count == 1 ? "" : "s", of, sure.count == 1 ? "was" : "were");
    }
    return fmt::format("When this library says {:.0f} %{}, it is right {:.0f} % of the time (n = "
                       "{}).{}",
                       100 * sure.stated, of, 100 * sure.right, sure.count,
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

std::string question_words(ProofQuestion question) {
    switch (question) {
    case ProofQuestion::run:
        return "a run like the library's own";
    case ProofQuestion::day:
        return "a new day";
    case ProofQuestion::new_system:
        return "a system of which little is measured";
    }
    return "";
}

std::string subject_words(ProofQuestion question, std::size_t systems) {
    return fmt::format("{}, features on {}", question_words(question),
                       systems == 1   ? "one system"
                       : systems == 2 ? "two systems"
                                      : "three or more systems");
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
    return verdict_of(reliability, "");
}

std::string verdict_sentence(const BasisResult &result) {
    return verdict_of(result.corrected, fmt::format(" of a {} compound", to_text(result.basis))) +
           fmt::format(" Candidate sets hold {:.0f} % of {} such compound{}.",
                       100 * result.corrected.set_coverage, result.questions,
                       result.questions == 1 ? "" : "s");
}

std::string verdict_sentence(const AbsentResult &result) {
    if (result.questions == 0) {
        return "A compound the library lacks: none was asked for.";
    }
    return fmt::format(
        "A compound the library lacks: {} of {} were taken for one of its own with 80 % or more. "
        "Unlisted has {:.0f} % for them on average, {:.0f} % for compounds that it holds.",
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

std::string untried_sentence(Technique technique, UntriedKind kind, std::size_t questions,
                             std::size_t needed) {
    switch (kind) {
    case UntriedKind::several_systems:
        return fmt::format("Not tried: {}, features seen on several systems. {} compounds could "
                           "be left out on two systems at once, {} are needed: run the same "
                           "standards on both systems on the same days, five or more, and give "
                           "the dates.",
                           to_text(technique), questions, needed);
    case UntriedKind::one_system:
        return fmt::format("Not tried: {}, features seen on one system. {} values could be left "
                           "out and asked for, {} are needed: measure compounds that the library "
                           "holds in further runs.",
                           to_text(technique), questions, needed);
    case UntriedKind::new_system:
        return fmt::format("Not tried: {}, a system of which little is measured. {} values that "
                           "other systems tell about could be left out and asked for, {} are "
                           "needed: measure 30 compounds or more on two systems of one kind.",
                           to_text(technique), questions, needed);
    }
    return "";
}

} // namespace cospot

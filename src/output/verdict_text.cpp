#include "output/verdict_text.h"

#include <fmt/format.h>

namespace cospot {

std::string verdict_sentence(const Reliability &reliability) {
    const ReliabilityBin sure = verdict(reliability);
    if (sure.count < kFewStatements) {
        return fmt::format("Only {} statements were made with 80 % or more: too few to judge them.",
                           sure.count);
    }
    const std::string words =
        fmt::format("When this library says {:.0f} %, it is right {:.0f} % of the time (n = {}).",
                    100 * sure.stated, 100 * sure.right, sure.count);
    return is_too_sure(sure)
               ? words + " That is too sure: read its probabilities as an order only, "
                         "look for values that contradict each other (cospot audit), "
                         "and measure more runs."
               : words;
}

std::string correction_sentence(const ProofResult &proof) {
    const std::string figures = fmt::format(
        "log loss {:.4f} as computed, {:.4f} corrected; calibration error {:.3f} and {:.3f}; on "
        "values that the correction was not learned from",
        proof.as_stated.log_loss, proof.tried_log_loss, proof.as_stated.calibration_error,
        proof.tried_calibration_error);
    return proof.is_corrected
               ? fmt::format("Corrected: odds between candidates to the power {:.2f} ({}).",
                             proof.recalibration.exponent, figures)
               : fmt::format("No correction: as computed is better ({}).", figures);
}

std::string untried_sentence(Technique technique, bool several_systems, std::size_t questions,
                             std::size_t needed) {
    return several_systems
               ? fmt::format("Not tried: {}, features seen on several systems. {} compounds could "
                             "be left out on two systems at once, {} are needed: run the same "
                             "standards on both systems on the same days, five or more, and give "
                             "the dates.",
                             to_text(technique), questions, needed)
               : fmt::format("Not tried: {}, features seen on one system. {} values could be left "
                             "out and asked for, {} are needed: measure compounds that the library "
                             "holds in further runs.",
                             to_text(technique), questions, needed);
}

} // namespace cospot

#include "output/prove_text.h"

#include "output/basis_text.h"
#include "output/verdict_text.h"

#include <fmt/format.h>

#include <cmath>

namespace cospot {

namespace {

std::string bar(const ReliabilityBin &bin) {
    constexpr std::size_t width = 20;
    std::string cells(width + 1, '.');
    const auto at = [&](double share) {
        return static_cast<std::size_t>(std::lround(share * width));
    };
    cells[at(bin.stated)] = '|';
    cells[at(bin.right)] = cells[at(bin.right)] == '|' ? '#' : 'o';
    return cells;
}

/// The reliability table; without its right half where nothing is corrected.
std::string bins_text(const ProofResult &proof) {
    std::string text = "  stated   right       n";
    text += proof.is_corrected ? "   corrected   right       n\n" : "\n";
    for (std::size_t b = 0; b < proof.as_stated.bins.size(); ++b) {
        const ReliabilityBin &before = proof.as_stated.bins[b];
        const ReliabilityBin &after = proof.corrected.bins[b];
        if (before.count + after.count == 0) {
            continue;
        }
        text += fmt::format("  {:5.1f} %  {:5.1f} % {:>6}  ", 100 * before.stated,
                            100 * before.right, before.count);
        if (proof.is_corrected) {
            text += fmt::format("   {:5.1f} %  {:5.1f} % {:>6}  ", 100 * after.stated,
                                100 * after.right, after.count);
        }
        text += bar(after) + '\n';
    }
    return text + fmt::format("  (| stated, o right{}, from 0 to 100 %; # both)\n\n",
                              proof.is_corrected ? " after the correction" : "");
}

} // namespace

std::string prove_text(const ProvedQuestion &proved, const Style &style) {
    const ProofResult &proof = proved.result;
    std::string text = style.strong(fmt::format("{}: {}", to_text(proved.technique),
                                                subject_words(proved.question, proved.systems))) +
                       '\n';
    text += wrapped(asked_sentence(proved.question), 2);
    text += fmt::format("  {} values asked, {} of compounds left out of the library\n",
                        proof.questions, proof.absent);
    text += fmt::format("  first candidate right, of those held: {:.0f} %\n\n",
                        100 * proof.first_right);
    for (const BasisResult &one : proof.by_basis) {
        text += wrapped(verdict_sentence(one), 2);
    }
    text += wrapped(verdict_sentence(proof.absent_compounds), 2);
    text += wrapped(verdict_sentence(proof.corrected), 2) + '\n' + bins_text(proof);
    text += fmt::format("  {:<38} {:>9} {:>11}\n", "", "as stated",
                        proof.is_corrected ? "corrected" : "from now on");
    const auto row = [&](const std::string &name, double before, double after) {
        text += fmt::format("  {:<38} {:>9.3f} {:>11.3f}\n", name, before, after);
    };
    row("calibration error", proof.as_stated.calibration_error, proof.corrected.calibration_error);
    row("log loss", proof.as_stated.log_loss, proof.corrected.log_loss);
    row("95 % candidate sets hold the truth", proof.as_stated.set_coverage,
        proof.corrected.set_coverage);
    for (const BasisResult &one : proof.by_basis) {
        row(fmt::format("  where it is {}", to_text(one.basis)), one.as_stated.set_coverage,
            one.corrected.set_coverage);
    }
    row("compounds in a set, mean", proof.as_stated.set_length, proof.corrected.set_length);
    return text + '\n' + wrapped(correction_sentence(proof), 2);
}

} // namespace cospot

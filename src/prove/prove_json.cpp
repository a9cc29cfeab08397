#include "prove/prove_json.h"

#include "model/matcher/basis_text.h"
#include "prove/proof_words.h"

namespace cospot {

namespace {

Json reliability_json(const Reliability &reliability) {
    Json bins = Json::array();
    for (const ReliabilityBin &bin : reliability.bins) {
        if (bin.count > 0) {
            bins.push_back({{"stated", bin.stated}, {"right", bin.right}, {"n", bin.count}});
        }
    }
    return {{"calibration_error", reliability.calibration_error},
            {"log_loss", reliability.log_loss},
            {"set_coverage", reliability.set_coverage},
            {"set_length", reliability.set_length},
            {"reliability", bins}};
}

Json proved_by_basis(const ProofResult &proof) {
    Json all = Json::array();
    for (const BasisResult &one : proof.by_basis) {
        const matcher::BasisCorrection &learned =
            matcher::correction_of(proof.recalibration, one.basis);
        all.push_back({{"basis", to_text(one.basis)},
                       {"questions", one.questions},
                       {"first_right", one.first_right},
                       {"as_stated", reliability_json(one.as_stated)},
                       {"corrected", reliability_json(one.corrected)},
                       {"is_corrected", one.is_corrected},
                       {"exponent", learned.exponent},
                       {"least_in_set", learned.least_in_set},
                       {"too_sure", is_too_sure(verdict(one.corrected))},
                       {"verdict", verdict_sentence(one)}});
    }
    return all;
}

Json absent_compounds(const ProofResult &proof) {
    const AbsentResult &absent = proof.absent_compounds;
    return {{"questions", absent.questions},
            {"claimed", absent.claimed},
            {"unlisted_likeliest", absent.likeliest},
            {"unlisted", absent.unlisted},
            {"unlisted_of_held", absent.of_present},
            {"is_corrected", absent.is_corrected},
            {"log_odds_offset", proof.recalibration.unlisted_offset},
            {"least_in_set", proof.recalibration.least_unlisted_in_set},
            {"verdict", verdict_sentence(absent)}};
}

matcher::BasisCorrection of_most(const ProofResult &proof) {
    std::size_t most = 0;
    matcher::BasisCorrection correction = proof.recalibration.measured;
    for (const BasisResult &one : proof.by_basis) {
        if (one.questions > most) {
            most = one.questions;
            correction = matcher::correction_of(proof.recalibration, one.basis);
        }
    }
    return correction;
}

} // namespace

Json prove_json(const ProvedQuestion &proved) {
    const ProofResult &proof = proved.result;
    const matcher::BasisCorrection learned = of_most(proof);
    return Json{{"technique", to_text(proved.technique)},
                {"question", library::to_text(proved.question)},
                {"asks", question_words(proved.question, proved.systems)},
                {"left_out", asked_sentence(proved.question)},
                {"systems", proved.systems},
                {"several_systems", proved.systems > 1},
                {"questions", proof.questions},
                {"absent", proof.absent},
                {"first_right", proof.first_right},
                {"as_stated", reliability_json(proof.as_stated)},
                {"corrected", reliability_json(proof.corrected)},
                {"is_corrected", proof.is_corrected},
                {"tried",
                 {{"calibration_error", proof.tried_calibration_error},
                  {"log_loss", proof.tried_log_loss}}},
                {"correction", correction_sentence(proof)},
                {"too_sure", is_any_too_sure(proof)},
                {"exponent", learned.exponent},
                {"least_in_set", learned.least_in_set},
                {"by_basis", proved_by_basis(proof)},
                {"absent_compounds", absent_compounds(proof)},
                {"verdict", verdict_sentence(proof.corrected)}};
}

} // namespace cospot

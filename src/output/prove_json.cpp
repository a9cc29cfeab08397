#include "output/prove_json.h"

#include "output/verdict_text.h"

namespace cospot {

namespace {

Json json_of(const Reliability &reliability) {
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

} // namespace

Json prove_json(Technique technique, bool several_systems, const ProofResult &proof) {
    return Json{{"technique", to_text(technique)},
                {"several_systems", several_systems},
                {"questions", proof.questions},
                {"absent", proof.absent},
                {"first_right", proof.first_right},
                {"as_stated", json_of(proof.as_stated)},
                {"corrected", json_of(proof.corrected)},
                {"is_corrected", proof.is_corrected},
                {"tried",
                 {{"calibration_error", proof.tried_calibration_error},
                  {"log_loss", proof.tried_log_loss}}},
                {"correction", correction_sentence(proof)},
                {"too_sure", is_too_sure(verdict(proof.corrected))},
                {"exponent", proof.recalibration.exponent},
                {"least_in_set", proof.recalibration.least_in_set},
                {"verdict", verdict_sentence(proof.corrected)}};
}

} // namespace cospot

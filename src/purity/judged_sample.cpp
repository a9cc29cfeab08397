#include "purity/judged_sample.h"

#include <algorithm>

namespace cospot::purity {

bool is_in_order(const JudgedSample &sample) {
    return std::all_of(sample.verdicts.begin(), sample.verdicts.end(),
                       [](const RuleVerdict &one) { return one.verdict == Verdict::meets; });
}

std::string feature_text(const Feature &feature) {
    return (feature.retention_time_min ? "peak " : "spot ") + feature.name;
}

} // namespace cospot::purity

#include "purity/judged_sample.h"

#include <algorithm>

namespace cospot::purity {

const char *symbol(Ratio ratio) {
    switch (ratio) {
    case Ratio::retardation:
        return "R_rel";
    case Ratio::unadjusted:
        return "RRT";
    case Ratio::adjusted:
        return "r";
    case Ratio::none:
        break;
    }
    return "";
}

const char *definition(Ratio ratio) {
    switch (ratio) {
    case Ratio::retardation:
        return "R_F/R_F(declared)";
    case Ratio::unadjusted:
        return "t_R/t_R(declared), unadjusted";
    case Ratio::adjusted:
        return "(t_R - t_M)/(t_R(declared) - t_M), adjusted";
    case Ratio::none:
        break;
    }
    return "";
}

bool is_in_order(const JudgedSample &sample) {
    return std::all_of(sample.verdicts.begin(), sample.verdicts.end(),
                       [](const RuleVerdict &one) { return one.verdict == Verdict::meets; });
}

std::string feature_text(const Feature &feature) {
    return (feature.retention_time_min ? "peak " : "spot ") + feature.name;
}

} // namespace cospot::purity

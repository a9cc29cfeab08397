#pragma once

#include "purity/judged_sample.h"
#include "purity/rules.h"

#include <optional>
#include <string>
#include <vector>

namespace cospot::purity {

/// What the limits are applied with.
struct Limits {
    Rules rules;
    std::optional<double> dose_mg;           ///< of the declared compound a day
    std::optional<double> detection_percent; ///< an impurity below it would not be seen
};

/// Name of the rule on the sum of the impurities.
inline constexpr const char *kSumRule = "all impurities together";

/// Whether the declared compound is there, and at which feature.
[[nodiscard]] RuleVerdict declared_verdict(const JudgedSample &sample);

/// Verdicts on the impurities; each feature's `actions` are set as they follow. Where it is open
/// which feature is the declared compound, no limit can be told.
[[nodiscard]] std::vector<RuleVerdict> limit_verdicts(JudgedSample &sample, const Limits &limits);

/// The limit of its own that the likeliest compounds of a feature have; null where none has one.
[[nodiscard]] const SpecifiedLimit *specified_limit(const JudgedFeature &feature,
                                                    const Rules &rules);

} // namespace cospot::purity

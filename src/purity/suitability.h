#pragma once

#include "purity/judged_sample.h"
#include "purity/rules.h"

#include <optional>
#include <vector>

namespace cospot::purity {

/// What is usually asked where the rules say nothing: resolution 1.5, which separates to the
/// baseline (common practice, no source), and a symmetry factor of 0.8 to 1.8 (Ph. Eur. 2.2.46,
/// 11th edition).
[[nodiscard]] Suitability usual_suitability();

/// Resolution of two peaks from their widths at half height, or, where one has none, from start and
/// end as widths at the base (a lower bound, since integration starts outside the tangents).
/// Nothing where widths are missing.
[[nodiscard]] std::optional<double> resolution_of(const Feature &first, const Feature &second);

/// Verdicts on the separation around the declared compound's peak. Of `asked` everything is judged;
/// of `usual` only what the peak table tells.
[[nodiscard]] std::vector<RuleVerdict> suitability_verdicts(const JudgedSample &sample,
                                                            const Suitability &asked,
                                                            const Suitability &usual);

} // namespace cospot::purity

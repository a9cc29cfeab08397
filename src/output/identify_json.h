#pragma once

#include "evidence/feature.h"
#include "identification/identification.h"
#include "output/explanation_text.h"

#include <string>

namespace cospot {

/// One line of JSON for one feature: sample, feature, observations, candidates (rank, compound,
/// inchikey, probability, basis, expected, spread, deviation, because), next, groups, unlisted,
/// other, set, warnings, level, caution. Where a candidate was compared on several systems,
/// expected, spread and deviation are those of the system on which it fits worst; "systems" tells
/// all.
[[nodiscard]] std::string identify_json(const Feature &feature, const Identification &result,
                                        const ExplanationWords &words);

} // namespace cospot

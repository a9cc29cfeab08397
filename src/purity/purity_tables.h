#pragma once

#include "document/document.h"
#include "purity/judged_sample.h"

#include <string>

namespace cospot {

/// "Met: limit of propylparaben (peak 2, 0.21 %; limit 0.25 %); ..."; empty where none is met.
[[nodiscard]] std::string met_sentence(const purity::JudgedSample &sample);

/// Rule by rule, what needs a look first; those that differ only in the feature as one.
[[nodiscard]] Table rules_table(const purity::JudgedSample &sample, bool with_met);

/// Whether the features are peaks; else they are spots.
[[nodiscard]] bool is_chromatogram(const purity::JudgedSample &sample);

/// Feature by feature; `with_definition`: of the relative retention.
[[nodiscard]] Table features_table(const purity::JudgedSample &sample, bool with_definition);

/// Each warning once, with the features that it is about.
[[nodiscard]] List warnings_of(const purity::JudgedSample &sample);

/// What no rule says: the sum of the impurities, and what was disregarded; may be empty.
[[nodiscard]] std::string sums_sentence(const purity::JudgedSample &sample);

/// A share in per cent with two decimals; the first digit of one that would round to nothing.
[[nodiscard]] std::string share_text(double per_cent);

/// What is to be done with a feature.
[[nodiscard]] std::string actions_text(const purity::JudgedFeature &judged);

} // namespace cospot

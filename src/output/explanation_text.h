#pragma once

#include "document/style.h"
#include "evidence/feature.h"
#include "explanation/explanation.h"
#include "identification/identification.h"

#include <span>
#include <string>
#include <vector>

namespace cospot {

/// An explanation in short sentences.
struct ExplanationWords {
    std::vector<std::vector<std::string>> because; ///< of each candidate, in their order
    std::vector<std::string> next;                 ///< what to measure, one a tie
};

/// Puts the explanation of one feature into words. `run` holds the features that were identified
/// together, which the explanation refers to.
[[nodiscard]] ExplanationWords explanation_words(const Explanation &explanation,
                                                 const Feature &feature,
                                                 const Identification &identification,
                                                 std::span<const Feature *const> run);

/// The words for reading, at most 80 columns wide: the first candidate of each of the first three
/// groups that have a line of their own, and what to measure next. Empty where nothing is
/// explained.
[[nodiscard]] std::string explanation_text(const ExplanationWords &words,
                                           const Identification &identification,
                                           const Style &style);

} // namespace cospot

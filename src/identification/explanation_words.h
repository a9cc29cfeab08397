#pragma once

#include "document/document.h"
#include "identification/explanation.h"
#include "identification/identification.h"
#include "readers/feature.h"

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

/// The words as lists: why the first candidate of each of the first three groups has its
/// probability, and what to measure next. Empty where nothing is explained.
[[nodiscard]] std::vector<Block> explanation_blocks(const ExplanationWords &words,
                                                    const Identification &identification);

} // namespace cospot

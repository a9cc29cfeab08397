#pragma once

#include "identification/identification.h"

#include <cstddef>
#include <string>
#include <vector>

namespace cospot {

/// What cannot be told apart, as one alternative: a group of candidates, or `unlisted`.
struct Alternative {
    const matcher::Group *group = nullptr; ///< none: `unlisted`
    double probability = 0.0;
};

/// All that a feature may be, the likeliest first, with `unlisted` in its place. Empty where
/// nothing could be compared.
[[nodiscard]] std::vector<Alternative> alternatives_of(const Identification &result);

/// Whether a group deserves a line of its own: it holds a hundredth, or is the likeliest beside an
/// `unlisted` that is not all but sure.
[[nodiscard]] bool is_worth_listing(const matcher::Group &group, const Identification &result);

/// "a or b or c or 2 more", "unlisted"
[[nodiscard]] std::string name_of(const Alternative &alternative, const Identification &result);

/// "measured", "same run", "transferred" or "predicted"
[[nodiscard]] std::string name_of_basis(matcher::Basis basis);

} // namespace cospot

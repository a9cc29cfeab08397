#pragma once

#include <string>
#include <vector>

namespace cospot {

/// A share of a bar.
struct ProbabilityShare {
    std::string name;
    double probability = 0.0;
};

/// One bar of all that a feature may be: the candidates side by side, the likeliest first, then
/// `other` (all that are not named, left blank), then `unlisted`, hatched. Shares sum to 1.
[[nodiscard]] std::string probability_bar(const std::vector<ProbabilityShare> &candidates,
                                          double other, double unlisted, const std::string &title);

} // namespace cospot

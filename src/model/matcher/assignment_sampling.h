#pragma once

#include "model/matcher/assignment_messages.h"

#include <vector>

namespace cospot::matcher {

/// What drawing matchings at random says of the links' probabilities.
struct SampledLinks {
    std::vector<double> probabilities; ///< in the order of the links
    double noise = 1.0;                ///< largest half difference of two chains of draws
};

/// Draws matchings in proportion to their weights by a Markov chain: again and again two rows that
/// share a column choose anew, together, among what the others leave (Gibbs sampling: geman1984,
/// from memory). Of each choice its probabilities are averaged, not the outcome. Two chains, one
/// from the empty matching and one from the heaviest links on; where they disagree, neither has
/// seen all there is. The same links give the same draws.
[[nodiscard]] SampledLinks sample_links(const std::vector<Link> &links);

} // namespace cospot::matcher

#pragma once

#include "model/matcher/assignment_messages.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace cospot::matcher {

/// What a trellis says about the matchings of a graph.
struct TrellisMarginals {
    std::vector<double> links; ///< probability of each link
    std::vector<double> idle;  ///< probability that a row uses no link
    double error_bound = 0.0;  ///< rigorous, of any of these; 0 where no states were merged
};

/// Forward-backward over the rows, in their order; a state is the set of columns that an earlier
/// row used and a later one could still ask for.
///
/// A step that would hold more than `width` states keeps those that carry the most weight, by what
/// the later rows are expected to lose without the used columns, and merges the others into them by
/// forgetting that columns are used, those first that the later rows miss least. Forgetting for
/// nothing can only add weight and leaving out only lose it, so the two totals bracket the true
/// one, and the share of the untouched matchings bounds the error.
///
/// Nothing where the rows share more than 64 columns at once, or where mergers are expected to
/// touch more than `tolerance` of the weight (0: exact or nothing).
[[nodiscard]] std::optional<TrellisMarginals> solve_trellis(const std::vector<Link> &links,
                                                            std::size_t width, double tolerance);

/// Sum over the rows of the possible states times the choices: the cost of `solve_trellis`, if all
/// states are reached.
[[nodiscard]] double trellis_cost(const std::vector<Link> &links);

} // namespace cospot::matcher

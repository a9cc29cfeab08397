#pragma once

#include <cstddef>
#include <vector>

namespace cospot::matcher {

/// A possible pair of a weighted bipartite graph.
struct Link {
    std::size_t row = 0;
    std::size_t column = 0;
    double weight = 0.0;
};

/// Positions in `links` by row or by column, ascending: `group_links(links, &Link::row)`.
[[nodiscard]] std::vector<std::vector<std::size_t>> group_links(const std::vector<Link> &links,
                                                                std::size_t Link::*end);

/// For each link 1 / (1 + sum of weight times `arriving` over the other links of its group).
[[nodiscard]] std::vector<double>
free_of_others(const std::vector<std::vector<std::size_t>> &groups, const std::vector<Link> &links,
               const std::vector<double> &arriving);

/// What the ends of each link, in the order of the links, would do without it.
struct LinkMessages {
    std::vector<double> row_free;    ///< probability that no other link of the row is used
    std::vector<double> column_free; ///< probability that no other link of the column is used
};

/// Sum-product message passing for matchings (the cavity equations of the monomer-dimer model:
/// zdeborova2006; convergence: bayati2006; both from memory). Exact on trees; on graphs with short
/// cycles and heavy links a marginal can be wrong by some tenths. The steps are halved on the
/// logarithmic scale, up to 300 rounds.
[[nodiscard]] LinkMessages pass_messages(const std::vector<Link> &links);

/// Probability of each link according to the messages.
[[nodiscard]] std::vector<double> link_probabilities(const std::vector<Link> &links,
                                                     const LinkMessages &messages);

/// Largest absolute error that `probabilities` from messages can have, rigorously: the recursion of
/// godsil1981 for matchings (from memory) cut off after two steps from above and three from below.
/// Small where no column is much asked for; else of no use.
[[nodiscard]] double message_error_bound(const std::vector<Link> &links,
                                         const std::vector<double> &probabilities);

} // namespace cospot::matcher

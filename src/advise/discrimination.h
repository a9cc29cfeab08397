#pragma once

#include <boost/dynamic_bitset.hpp>

#include <cstddef>
#include <vector>

namespace cospot {

/// Pairs of compounds, in the order of `pair_index`: whether they are told apart.
using Pairs = boost::dynamic_bitset<>;

/// Which pairs of some compounds each system tells apart.
struct Discrimination {
    std::size_t compounds = 0;
    std::vector<Pairs> told_apart; ///< one a system
};

/// Position of the pair (a, b), a < b, among the pairs of `compounds`.
[[nodiscard]] std::size_t pair_index(std::size_t a, std::size_t b, std::size_t compounds);

/// Discriminating power 1 - 2 M / (N (N - 1)) with M pairs of N compounds not told apart: the
/// probability that two compounds drawn at random can be told apart (moffat1974, from memory). 1
/// for fewer than two compounds.
[[nodiscard]] double discriminating_power(std::size_t compounds, std::size_t not_told_apart);

/// Mean list length: the mean number of compounds that remain when each in turn is the unknown, the
/// compound itself included (schepers1983, from memory); 1 is perfect.
[[nodiscard]] double mean_list_length(std::size_t compounds, const Pairs &told_apart);

/// Systems that together tell as many pairs apart as all do, or the best of that many systems.
struct SystemSet {
    std::vector<std::size_t> systems;
    Pairs told_apart; ///< by any of them
};

/// The best sets of one, two, ... systems up to the one that tells all pairs apart that any system
/// does; of equal ones the first in the order of systems.
struct SystemChoice {
    std::vector<SystemSet> sets; ///< the n-th has n + 1 systems; empty where nothing is told apart
    bool is_exact = true;        ///< false: greedy
    /// Where not exact: no set with fewer systems than this can do the same.
    std::size_t at_least = 0;
};

/// Exact up to `most_exact` systems by going through all sets, greedy beyond. The greedy choice
/// needs at most 1 + ln(pairs) times as many systems as the smallest set (chvatal1979, from
/// memory).
[[nodiscard]] SystemChoice choose_systems(const Discrimination &discrimination,
                                          std::size_t most_exact = 16);

} // namespace cospot

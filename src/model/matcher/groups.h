#pragma once

#include "model/matcher/ranking.h"

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace cospot::matcher {

/// Candidates that these observations cannot tell apart, as positions in the ranking.
struct Group {
    std::vector<std::size_t> members; ///< the likeliest first; a single one stands for itself
    double probability = 0.0;         ///< of all members together
    std::size_t not_listed = 0;       ///< further members, where there are too many to list
};

/// Densities that overlap by more than this are not told apart.
inline constexpr double kIndistinguishable = 0.9;

/// Stereoisomers count as told apart only where their means differ by more than two spreads
/// (overlap below 0.32): enantiomers coincide on every achiral phase, and a smaller difference is
/// more likely to be chance.
inline constexpr double kStereoisomersIndistinguishable = 0.32;

/// Further evidence tells two compounds apart where it favours one by more than this factor.
inline constexpr double kFurtherTellsApart = 2.0;

/// Groups the first candidates of a ranking, as many as `skeletons` holds. The likeliest candidate
/// that is in no group yet leads the next one and takes in the less likely ones that it overlaps
/// with on every observed system that both were measured on, unless `further` evidence (as for
/// `rank_candidates`) tells the two apart. `skeletons` holds for each of them, in
/// the order of the ranking, what stereoisomers share (the first block of the InChIKey). The
/// likeliest group comes first.
[[nodiscard]] std::vector<Group> group_candidates(const Ranking &ranking,
                                                  std::span<const Observation> observations,
                                                  std::span<const SystemModel> systems,
                                                  std::span<const std::string> skeletons,
                                                  std::span<const double> further = {});

} // namespace cospot::matcher

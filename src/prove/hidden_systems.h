#pragma once

#include "prove/asking.h"

#include <cstddef>
#include <vector>

namespace cospot {

/// Systems become new to the library in so many rounds at most.
inline constexpr std::size_t kHiddenRounds = 10;

/// How many rounds the systems are worth: a few for each one of which other systems can tell.
[[nodiscard]] std::size_t hidden_rounds(const std::vector<SystemValues> &values);

/// Asks what a laboratory asks that has just begun to use a system. In each round most compounds of
/// one system, or of two or three of a large library's, are left out there: all but a third, or all
/// but 20, 50 or 12 in turn; what the others tell about them is kept. Every fifth compound is left
/// out of all systems. Their values are then asked for one by one, and those of a compound on
/// several of these systems together, about 80 on each, fewer where
/// each has thousands of candidates (`kMostCandidates`). Where the others do not tell what most
/// compounds show there, nothing is asked. Deterministic.
[[nodiscard]] std::vector<JudgedQuestion>
judge_hidden_systems(const std::vector<SystemValues> &values, std::size_t round);

} // namespace cospot

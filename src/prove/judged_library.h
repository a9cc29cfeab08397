#pragma once

#include "library/database.h"
#include "prove/asking.h"
#include "shared/quantity.h"

#include <cstddef>
#include <vector>

namespace cospot {

/// The library's own values are asked of it in this many parts.
inline constexpr std::size_t kProofParts = 10;

/// Features of one system that a part asks about, and as many of several systems.
inline constexpr std::size_t kMostQuestions = 250;

/// A run with more features, or with more candidates together, is asked in pieces of so many
/// features, as a lane may have.
inline constexpr std::size_t kMostJoint = 150;
inline constexpr std::size_t kMostJointCandidates = 3000;
inline constexpr std::size_t kPiece = 10;

/// All that the library holds on the systems of a technique, retired ones left out.
[[nodiscard]] std::vector<SystemValues> values_to_judge(library::Database &database,
                                                        Technique technique);

/// Asks for one part of the values. In each part some days, runs or values, and every fifth
/// compound are left out of the library, and what was left out is identified by the rest, values of
/// a run jointly. Whole days are left out on a system with five days or more, in every second part
/// whole runs where days have several; whole runs where there are five but no days; else single
/// values. Compounds left out on several systems make a further question, seen on two to four of
/// them. Of many values a choice without pattern is asked, in which each system has its share:
/// about `kMostQuestions` a part, fewer where each has thousands of candidates
/// (`kMostCandidates`). Systems too large to be compared with each other take turns, four a part.
/// Deterministic.
[[nodiscard]] std::vector<JudgedQuestion> judge_part(const std::vector<SystemValues> &values,
                                                     std::size_t part);

} // namespace cospot

#pragma once

#include "library/database.h"
#include "prove/asking.h"
#include "shared/quantity.h"

#include <cstddef>
#include <vector>

namespace cospot {

/// The library's own values are asked of it in this many parts.
inline constexpr std::size_t kProofParts = 10;

/// All that the library holds on the systems of a technique, retired ones left out.
[[nodiscard]] std::vector<SystemValues> values_to_judge(library::Database &database,
                                                        Technique technique);

/// Asks for one part of the values. In each part some days, runs or values, and every fifth
/// compound are left out of the library, and what was left out is identified by the rest, values of
/// a run jointly. Whole days are left out on a system with five days or more, in every second part
/// whole runs where days have several; whole runs where there are five but no days; else single
/// values. Compounds left out on several systems make a further question, seen on two to four of
/// them. Of many values an even choice is asked, about 250 a part. Deterministic.
[[nodiscard]] std::vector<JudgedQuestion> judge_part(const std::vector<SystemValues> &values,
                                                     std::size_t part);

} // namespace cospot

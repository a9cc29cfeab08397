#pragma once

#include "evidence/library_evidence.h"
#include "library/database.h"
#include "library/measurements.h"
#include "matcher/recalibration.h"
#include "shared/quantity.h"

#include <cstddef>
#include <vector>

namespace cospot {

/// The library's own values are asked of it in this many parts.
inline constexpr std::size_t kProofParts = 10;

/// A question to the library whose answer is known.
struct JudgedQuestion {
    std::size_t part = 0;         ///< which part of the values it was left out with
    bool several_systems = false; ///< the feature was seen on several systems
    matcher::JudgedRanking judged;
};

/// The values of one system and quantity.
struct SystemValues {
    ModelledSystem modelled;
    std::vector<library::HeldValue> held; ///< in the order of compounds
};

/// All that the library holds on the systems of a technique, retired ones left out.
[[nodiscard]] std::vector<SystemValues> values_to_judge(library::Database &database,
                                                        Technique technique);

/// Asks for one part of the values. In each part some runs (all of one day together; single values
/// on a system with fewer than five runs) and every fifth compound are left out of the library, and
/// their values are identified by the rest, those of a run jointly. The truth is the compound, or
/// `unlisted` where it was left out wholly; values of other compounds of which the rest knows
/// nothing are not asked for. Compounds left out on several systems make a further question, seen
/// on two or three of them. Of many values an even choice is asked, about 250 a part.
/// Deterministic.
[[nodiscard]] std::vector<JudgedQuestion> judge_part(const std::vector<SystemValues> &values,
                                                     std::size_t part);

} // namespace cospot

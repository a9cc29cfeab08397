#pragma once

#include "library/database.h"
#include "prove/proof.h"

#include <cstddef>
#include <functional>
#include <vector>

namespace cospot {

/// With fewer questions a correction would be chance.
inline constexpr std::size_t kFewestQuestions = 50;

/// What a proof can do without.
enum class UntriedKind { one_system, several_systems, new_system };

/// What had too few questions.
struct UntriedQuestion {
    Technique technique = Technique::tlc;
    UntriedKind kind = UntriedKind::one_system;
    std::size_t questions = 0;
};

/// What the library's own values say about it.
struct LibraryProofs {
    std::vector<ProvedQuestion> proved;
    std::vector<UntriedQuestion> untried;
};

/// Asks all questions to each technique: parts of the values, then systems that become new. `begin`
/// is told the number of steps, `advance` is called after each.
[[nodiscard]] LibraryProofs prove_library(library::Database &database,
                                          const std::function<void(std::size_t)> &begin,
                                          const std::function<void()> &advance);

/// Stores what was learned, in one change.
void store_proofs(library::Database &database, const std::vector<ProvedQuestion> &proofs);

} // namespace cospot

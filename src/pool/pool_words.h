#pragma once

#include "fractions/warnings.h"
#include "pool/pool_result.h"

#include <string>
#include <vector>

namespace cospot {

/// "3-5, 7" for fractions or ranges of them.
[[nodiscard]] std::string ranges_text(const std::vector<fractions::FractionRange> &ranges);
[[nodiscard]] std::string numbers_text(const std::vector<int> &numbers);

/// "A", "A and B", "A, B and C".
[[nodiscard]] std::string components_text(const std::vector<std::size_t> &components,
                                          const fractions::ColumnRun &run);

/// A warning as a sentence, with what to do.
[[nodiscard]] std::string warning_text(const fractions::Warning &warning,
                                       const fractions::ColumnRun &run);

/// The compounds that the component may be, e.g. "vanillin 0.81, coumarin 0.10, unlisted 0.07".
[[nodiscard]] std::string candidates_text(const Identification &candidates);

/// What the advice rests on, for the end of the output.
[[nodiscard]] std::vector<std::string> pool_assumptions(const PoolResult &result);

} // namespace cospot

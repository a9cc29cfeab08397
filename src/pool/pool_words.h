#pragma once

#include "fractions/warnings.h"
#include "pool/pool_result.h"

#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// "3-5, 7" for fractions or ranges of them.
[[nodiscard]] std::string ranges_text(const std::vector<fractions::FractionRange> &ranges);
[[nodiscard]] std::string numbers_text(const std::vector<int> &numbers);

/// "A", "A and B", "A, B and C".
[[nodiscard]] std::string components_text(const std::vector<std::size_t> &components,
                                          const fractions::ColumnRun &run);

/// "one spot: B", "several spots: A and B", "no spot seen" in the fraction at that index; of a
/// trace, bands.
[[nodiscard]] std::string seen_text(const PoolResult &result, std::size_t fraction);

/// A mass or volume with four digits, all those before the point: "31.4", "61725".
[[nodiscard]] std::string amount_text(double amount);

/// "Combine" for several fractions, "Keep" for one.
[[nodiscard]] std::string_view combine_word(const std::vector<int> &numbers);

/// Where the wanted component is, in a sentence; without a target, where the components are alone.
[[nodiscard]] std::string verdict_text(const PoolResult &result);

/// What is wrong with the wanted component, in a sentence; empty where nothing is.
[[nodiscard]] std::string target_fault(const PoolResult &result);

/// A warning as a sentence, with what to do.
[[nodiscard]] std::string warning_text(const fractions::Warning &warning,
                                       const fractions::ColumnRun &run);

/// What the advice rests on: how the table was read, and what is assumed.
[[nodiscard]] std::vector<std::string> pool_notes(const PoolResult &result);

} // namespace cospot

#include "pool/pool_result.h"

#include <fmt/format.h>

namespace cospot {

std::string target_fault(const PoolResult &result) {
    if (!result.target) {
        return "";
    }
    if (!result.target->component) {
        return fmt::format("no component fits the target {}", result.target->asked);
    }
    const std::size_t index = *result.target->component;
    if (result.pooling.components[index].one_spot.empty()) {
        return fmt::format("no fraction shows the target {} alone: re-run its fractions",
                           result.run.components[index].name);
    }
    return "";
}

fractions::PartialSum collected_mg(const PoolResult &result) {
    std::vector<int> numbers;
    for (const fractions::Fraction &fraction : result.run.fractions) {
        numbers.push_back(fraction.number);
    }
    return fractions::sum_over(result.run, numbers, &fractions::Fraction::mass_mg);
}

bool needs_attention(const PoolResult &result) {
    return !result.warnings.empty() || !target_fault(result).empty();
}

} // namespace cospot

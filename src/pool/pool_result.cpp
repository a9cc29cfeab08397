#include "pool/pool_result.h"

#include <algorithm>

namespace cospot {

bool is_target(const PoolResult &result, std::size_t index) {
    return result.target && result.target->component == index;
}

bool misses_target(const PoolResult &result) {
    return result.target && (!result.target->component ||
                             result.pooling.components[*result.target->component].one_spot.empty());
}

bool needs_attention(const PoolResult &result) {
    return !result.warnings.empty() || misses_target(result);
}

fractions::PartialSum collected_mg(const PoolResult &result) {
    std::vector<int> numbers;
    for (const fractions::Fraction &fraction : result.run.fractions) {
        numbers.push_back(fraction.number);
    }
    return fractions::sum_over(result.run, numbers, &fractions::Fraction::mass_mg);
}

const fractions::BandSpot &spot_in(const fractions::Component &component, std::size_t fraction) {
    return *std::find_if(component.spots.begin(), component.spots.end(),
                         [&](const auto &spot) { return spot.fraction == fraction; });
}

RfRange rf_range(const fractions::Component &component) {
    const auto [least, most] = std::minmax_element(
        component.spots.begin(), component.spots.end(),
        [](const auto &a, const auto &b) { return a.rf.value() < b.rf.value(); });
    return {least->rf.value(), most->rf.value()};
}

} // namespace cospot

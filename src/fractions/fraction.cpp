#include "fractions/fraction.h"

#include <algorithm>
#include <utility>

namespace cospot::fractions {

namespace {

std::string letters(std::size_t index) {
    constexpr std::size_t alphabet = 26;
    std::string name;
    for (std::size_t rest = index + 1; rest > 0; rest = (rest - 1) / alphabet) {
        name.insert(name.begin(), static_cast<char>('A' + (rest - 1) % alphabet));
    }
    return name;
}

} // namespace

std::vector<FractionRange> ranges_of(const std::vector<int> &numbers) {
    std::vector<FractionRange> ranges;
    for (const int number : numbers) {
        if (!ranges.empty() && number == ranges.back().last + 1) {
            ranges.back().last = number;
        } else {
            ranges.push_back({number, number});
        }
    }
    return ranges;
}

double centre_of(const Component &component, const std::vector<Fraction> &fractions) {
    const auto total = [&](auto weight) {
        double weights = 0.0;
        double sum = 0.0;
        for (const BandSpot &spot : component.spots) {
            weights += weight(spot);
            sum += weight(spot) * fractions[spot.fraction].number;
        }
        return std::pair(sum, weights);
    };
    const bool all_measured =
        std::all_of(component.spots.begin(), component.spots.end(),
                    [](const BandSpot &spot) { return spot.intensity.has_value(); });
    const auto [sum, weights] =
        total([&](const BandSpot &spot) { return all_measured ? spot.intensity.value() : 1.0; });
    if (weights > 0.0) {
        return sum / weights;
    }
    const auto [unweighted, count] = total([](const BandSpot &) { return 1.0; });
    return unweighted / count;
}

void name_in_order(std::vector<Component> &components, const std::vector<Fraction> &fractions) {
    std::stable_sort(components.begin(), components.end(), [&](const auto &a, const auto &b) {
        return std::pair(centre_of(a, fractions), -a.rf.value_or(0.0)) <
               std::pair(centre_of(b, fractions), -b.rf.value_or(0.0));
    });
    for (std::size_t i = 0; i < components.size(); ++i) {
        components[i].name = letters(i);
    }
}

} // namespace cospot::fractions

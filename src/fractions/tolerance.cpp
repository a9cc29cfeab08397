#include "fractions/tolerance.h"

#include "shared/robust.h"

#include <algorithm>

namespace cospot::fractions {

namespace {

constexpr std::size_t kFewestPairs = 6;

bool is_between(const Spot &spot) {
    return spot.rf > 0.0 && spot.rf < 1.0;
}

void add_differences(const Fraction &one, const Fraction &next, std::vector<double> &differences) {
    if (next.number != one.number + 1 || one.spots.size() != next.spots.size()) {
        return;
    }
    for (std::size_t i = 0; i < one.spots.size(); ++i) {
        if (is_between(one.spots[i]) && is_between(next.spots[i])) {
            differences.push_back(next.spots[i].rf - one.spots[i].rf);
        }
    }
}

} // namespace

std::optional<LaneScatter> lane_scatter(const std::vector<Fraction> &fractions) {
    std::vector<double> differences;
    LaneScatter result;
    for (std::size_t i = 0; i < fractions.size(); ++i) {
        const std::vector<Spot> &spots = fractions[i].spots;
        for (std::size_t spot = 1; spot < spots.size(); ++spot) {
            const double gap = spots[spot - 1].rf - spots[spot].rf;
            result.least_gap = std::min(result.least_gap.value_or(gap), gap);
        }
        if (i + 1 < fractions.size()) {
            add_differences(fractions[i], fractions[i + 1], differences);
        }
    }
    if (differences.size() < kFewestPairs) {
        return std::nullopt;
    }
    result.pairs = differences.size();
    result.scatter = deviation_about_zero(std::move(differences));
    return result;
}

double tolerance_of(const LaneScatter &scatter, double by_reading) {
    constexpr double spreads = 3.0;
    const double wanted = spreads * scatter.scatter;
    return std::max(by_reading,
                    scatter.least_gap ? std::min(wanted, *scatter.least_gap / 2.0) : wanted);
}

} // namespace cospot::fractions

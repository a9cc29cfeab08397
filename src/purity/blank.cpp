#include "purity/blank.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

namespace cospot::purity {

namespace {

constexpr double kLeftByIntegration = 0.1;

BlankMatch match_of(const Located &sample, const Located &blank) {
    BlankMatch match{std::nullopt, true};
    if (sample.area && blank.area) {
        match.remaining_area = std::max(0.0, *sample.area - *blank.area);
        match.explains_all = *match.remaining_area < kLeftByIntegration * *sample.area ||
                             *match.remaining_area == 0.0;
    }
    return match;
}

} // namespace

double time_tolerance_min(double retention_time_min, std::optional<double> width_half_min) {
    constexpr double share = 0.005;
    constexpr double least_min = 0.02;
    return width_half_min && *width_half_min > 0.0
               ? *width_half_min / 2.0
               : std::max(least_min, share * retention_time_min);
}

double value_tolerance(Quantity quantity, double value) {
    switch (quantity) {
    case Quantity::Rf:
        return 0.02;
    case Quantity::RI:
        return 3.0;
    case Quantity::tR:
        return time_tolerance_min(value, std::nullopt);
    case Quantity::k:
    case Quantity::RRT:
    case Quantity::r:
        break;
    }
    return std::max(0.005, 0.005 * value);
}

std::vector<std::optional<BlankMatch>> subtract_blank(std::span<const Located> sample,
                                                      std::span<const Located> blank) {
    std::vector<std::tuple<double, std::size_t, std::size_t>> pairs;
    for (std::size_t i = 0; i < sample.size(); ++i) {
        for (std::size_t j = 0; j < blank.size(); ++j) {
            const double distance = std::abs(sample[i].position - blank[j].position);
            if (distance <= sample[i].tolerance) {
                pairs.emplace_back(distance, i, j);
            }
        }
    }
    std::sort(pairs.begin(), pairs.end());
    std::vector<std::optional<BlankMatch>> matches(sample.size());
    std::set<std::size_t> used;
    for (const auto &[distance, i, j] : pairs) {
        if (!matches[i] && used.insert(j).second) {
            matches[i] = match_of(sample[i], blank[j]);
        }
    }
    return matches;
}

} // namespace cospot::purity

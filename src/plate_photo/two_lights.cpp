#include "plate_photo/two_lights.h"

#include <algorithm>
#include <cmath>

namespace cospot::plate_photo {

namespace {

constexpr double kSameUncertainties = 3.0;
constexpr double kLeastSameMm = 0.5;

/// Two things, one of each list, and how far apart they are; 1 or less: they may be the same.
struct PossiblePair {
    std::size_t first = 0;
    std::size_t second = 0;
    double distance = 0.0;
};

/// The second of each first, each at most once, the nearest pairs before others.
std::vector<std::optional<std::size_t>> nearest_pairs(std::vector<PossiblePair> pairs,
                                                      std::size_t firsts, std::size_t seconds) {
    std::erase_if(pairs, [](const PossiblePair &pair) { return pair.distance > 1.0; });
    std::stable_sort(pairs.begin(), pairs.end(), [](const PossiblePair &a, const PossiblePair &b) {
        return a.distance < b.distance;
    });
    std::vector<std::optional<std::size_t>> second_of(firsts);
    std::vector<char> taken(seconds, 0);
    for (const PossiblePair &pair : pairs) {
        if (!second_of[pair.first] && taken[pair.second] == 0) {
            second_of[pair.first] = pair.second;
            taken[pair.second] = 1;
        }
    }
    return second_of;
}

double half_way(const FoundLane &a, const FoundLane &b) {
    return 0.25 * (a.right_mm - a.left_mm + b.right_mm - b.left_mm);
}

std::vector<LaneInTwoLights> lanes_of(const FoundPlate &first, const FoundPlate &second) {
    std::vector<PossiblePair> pairs;
    for (std::size_t i = 0; i < first.lanes.size(); ++i) {
        for (std::size_t k = 0; k < second.lanes.size(); ++k) {
            const FoundLane &a = first.lanes[i];
            const FoundLane &b = second.lanes[k];
            pairs.push_back({i, k, std::abs(a.x_mm - b.x_mm) / half_way(a, b)});
        }
    }
    const auto second_of = nearest_pairs(std::move(pairs), first.lanes.size(), second.lanes.size());
    std::vector<LaneInTwoLights> lanes;
    for (std::size_t i = 0; i < first.lanes.size(); ++i) {
        const double x = first.lanes[i].x_mm;
        lanes.push_back(
            {second_of[i] ? 0.5 * (x + second.lanes[*second_of[i]].x_mm) : x, i, second_of[i]});
    }
    for (std::size_t k = 0; k < second.lanes.size(); ++k) {
        if (std::find(second_of.begin(), second_of.end(), k) == second_of.end()) {
            lanes.push_back({second.lanes[k].x_mm, std::nullopt, k});
        }
    }
    std::sort(lanes.begin(), lanes.end(),
              [](const LaneInTwoLights &a, const LaneInTwoLights &b) { return a.x_mm < b.x_mm; });
    return lanes;
}

double same_reach(const FoundSpot &a, const FoundSpot &b) {
    return std::max(kLeastSameMm,
                    kSameUncertainties * std::hypot(a.uncertainty_mm, b.uncertainty_mm));
}

double place_of(const SpotInTwoLights &spot) {
    return spot.in_first ? spot.in_first->y_mm : spot.in_second->y_mm;
}

std::vector<SpotInTwoLights> spots_of(std::size_t lane, const std::vector<FoundSpot> &first,
                                      const std::vector<FoundSpot> &second) {
    std::vector<PossiblePair> pairs;
    for (std::size_t i = 0; i < first.size(); ++i) {
        for (std::size_t k = 0; k < second.size(); ++k) {
            pairs.push_back(
                {i, k, std::abs(first[i].y_mm - second[k].y_mm) / same_reach(first[i], second[k])});
        }
    }
    const auto second_of = nearest_pairs(std::move(pairs), first.size(), second.size());
    std::vector<SpotInTwoLights> spots;
    for (std::size_t i = 0; i < first.size(); ++i) {
        spots.push_back({lane, first[i], std::nullopt});
        if (second_of[i]) {
            spots.back().in_second = second[*second_of[i]];
        }
    }
    for (std::size_t k = 0; k < second.size(); ++k) {
        if (std::find(second_of.begin(), second_of.end(), k) == second_of.end()) {
            spots.push_back({lane, std::nullopt, second[k]});
        }
    }
    std::sort(spots.begin(), spots.end(), [](const SpotInTwoLights &a, const SpotInTwoLights &b) {
        return place_of(a) < place_of(b);
    });
    return spots;
}

} // namespace

TwoLights laid_over(const FoundPlate &first, const FoundPlate &second) {
    TwoLights result{.lanes = lanes_of(first, second), .spots = {}};
    const std::vector<FoundSpot> none;
    for (std::size_t i = 0; i < result.lanes.size(); ++i) {
        const LaneInTwoLights &lane = result.lanes[i];
        for (SpotInTwoLights &spot :
             spots_of(i, lane.in_first ? first.lanes[*lane.in_first].spots : none,
                      lane.in_second ? second.lanes[*lane.in_second].spots : none)) {
            result.spots.push_back(std::move(spot));
        }
    }
    return result;
}

} // namespace cospot::plate_photo

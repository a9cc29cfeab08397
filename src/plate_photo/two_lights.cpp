#include "plate_photo/two_lights.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

namespace cospot::plate_photo {

namespace {

double least_distance(const FoundPlate &plate) {
    double least = 2 * kSameLane_mm;
    for (std::size_t i = 1; i < plate.lanes.size(); ++i) {
        const double distance = plate.lanes[i].x_mm - plate.lanes[i - 1].x_mm;
        least = i == 1 ? distance : std::min(least, distance);
    }
    return least;
}

bool holds(const FoundSpot &spot, double y_mm) {
    return spot.low_mm <= y_mm && y_mm <= spot.high_mm;
}

struct Match {
    double distance_mm = 0.0;
    std::size_t first = 0;
    std::size_t second = 0;
};

std::vector<Match> possible_matches(const FoundLane &first, const FoundLane &second) {
    std::vector<Match> matches;
    for (std::size_t i = 0; i < first.spots.size(); ++i) {
        for (std::size_t j = 0; j < second.spots.size(); ++j) {
            const FoundSpot &a = first.spots[i];
            const FoundSpot &b = second.spots[j];
            if (holds(a, b.y_mm) && holds(b, a.y_mm)) {
                matches.push_back({std::abs(a.y_mm - b.y_mm), i, j});
            }
        }
    }
    std::sort(matches.begin(), matches.end(),
              [](const Match &a, const Match &b) { return a.distance_mm < b.distance_mm; });
    return matches;
}

} // namespace

std::vector<double> lanes_of_both(const FoundPlate &first, const FoundPlate &second) {
    const double same = 0.5 * std::min(least_distance(first), least_distance(second));
    std::vector<double> lanes;
    for (const FoundLane &lane : first.lanes) {
        lanes.push_back(lane.x_mm);
    }
    for (const FoundLane &lane : second.lanes) {
        const bool is_new =
            std::none_of(first.lanes.begin(), first.lanes.end(), [&](const FoundLane &known) {
                return std::abs(known.x_mm - lane.x_mm) < same;
            });
        if (is_new) {
            lanes.push_back(lane.x_mm);
        }
    }
    std::sort(lanes.begin(), lanes.end());
    return lanes;
}

std::vector<SpotInTwoLights> laid_over(const FoundPlate &first, const FoundPlate &second) {
    if (first.lanes.size() != second.lanes.size()) {
        throw std::logic_error("photos of one plate with other lanes");
    }
    std::vector<SpotInTwoLights> spots;
    for (std::size_t lane = 0; lane < first.lanes.size(); ++lane) {
        std::vector<bool> is_first_taken(first.lanes[lane].spots.size());
        std::vector<bool> is_second_taken(second.lanes[lane].spots.size());
        for (const Match &match : possible_matches(first.lanes[lane], second.lanes[lane])) {
            if (!is_first_taken[match.first] && !is_second_taken[match.second]) {
                is_first_taken[match.first] = true;
                is_second_taken[match.second] = true;
                spots.push_back({lane, match.first, match.second});
            }
        }
        for (std::size_t i = 0; i < is_first_taken.size(); ++i) {
            if (!is_first_taken[i]) {
                spots.push_back({lane, i, std::nullopt});
            }
        }
        for (std::size_t i = 0; i < is_second_taken.size(); ++i) {
            if (!is_second_taken[i]) {
                spots.push_back({lane, std::nullopt, i});
            }
        }
    }
    return spots;
}

} // namespace cospot::plate_photo

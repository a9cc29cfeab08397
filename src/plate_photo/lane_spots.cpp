#include "plate_photo/lane_spots.h"

#include "plate_photo/lane_profile.h"

#include <algorithm>
#include <cmath>

namespace cospot::plate_photo {

namespace {

constexpr double kSpotDeviations = 6;  ///< of the noise, that a peak of a lane is high
constexpr double kRoomMm = 4.0;        ///< of a profile beyond the heights, for the feet of spots
constexpr double kOwnShare = 0.4;      ///< of a spot's top, that its lane has and gaps do not
constexpr double kShallowValley = 0.1; ///< of the height: neighbours overlap
constexpr double kSameSpot = 0.5;      ///< of the lesser half width
constexpr double kLeastApartMm = 0.6;
constexpr double kColourShare = 0.25; ///< of all that is there, that a colour's peak has

struct Candidate {
    LaneSpot spot;
    double height = 0.0; ///< of the peak
};

bool is_shared(const signal::FoundPeaks &found, std::size_t i) {
    const auto shallow = [](const signal::FoundPeak &left) {
        return left.peak_to_valley_to_next && *left.peak_to_valley_to_next * kShallowValley < 1.0;
    };
    return (i > 0 && shallow(found.peaks[i - 1])) || shallow(found.peaks[i]);
}

/// Whether what is left of a spot without most of the noise stands out from the rest of it.
bool stands_out(const ClearedSignal &signal, const SpotShape &shape) {
    return signal.deviations_at(shape.x_mm, shape.y_mm) >= kSpotDeviations;
}

/// The peaks of one signal that look like spots.
std::vector<Candidate> candidates_in(const ClearedSignal &signal, const SpotField &spots,
                                     const LanePlace &lane, double core_mm, double low_mm,
                                     double high_mm) {
    const signal::FoundPeaks found =
        lane_peaks(lane_profile(signal.sharp, lane, core_mm, low_mm - kRoomMm, high_mm + kRoomMm),
                   kCalmShare * kLeastSignal);
    std::vector<Candidate> candidates;
    for (std::size_t i = 0; i < found.peaks.size(); ++i) {
        const signal::FoundPeak &peak = found.peaks[i];
        if (peak.apex < low_mm || peak.apex > high_mm) {
            continue;
        }
        const auto shape = spot_shape(signal.sharp, lane, peak.apex, peak.start, peak.end);
        if (shape && shape->height >= kLeastSignal && peak.height >= kOwnShare * shape->height &&
            stands_out(signal, *shape) && is_broad(spots, shape->x_mm, shape->y_mm) &&
            !reaches_edge(signal.usual().signal, shape->x_mm, shape->y_mm)) {
            candidates.push_back({{*shape, is_shared(found, i)}, peak.height});
        }
    }
    return candidates;
}

bool are_one(const SpotShape &a, const SpotShape &b) {
    return std::abs(a.y_mm - b.y_mm) <
           std::max(kLeastApartMm, kSameSpot * std::min(a.half_width, b.half_width));
}

/// Whether the feet of two spots reach over each other's tops, nearly.
bool reach_over(const SpotShape &low, const SpotShape &high) {
    return low.high_mm > high.low_mm && low.y_mm + low.half_width > high.y_mm - high.half_width;
}

} // namespace

std::vector<LaneSpot> lane_spots(const SpotField &spots, const LanePlace &lane, double core_mm,
                                 double low_mm, double high_mm) {
    std::vector<Candidate> all;
    for (const ClearedSignal &colour : spots.colours) {
        for (Candidate &candidate : candidates_in(colour, spots, lane, core_mm, low_mm, high_mm)) {
            const SpotShape &shape = candidate.spot.shape;
            if (shape.height >=
                kColourShare * value_at(spots.signal.sharp, shape.x_mm, shape.y_mm)) {
                all.push_back(std::move(candidate));
            }
        }
    }
    std::stable_sort(all.begin(), all.end(),
                     [](const Candidate &a, const Candidate &b) { return a.height > b.height; });
    for (Candidate &candidate :
         candidates_in(spots.signal, spots, lane, core_mm, low_mm, high_mm)) {
        all.push_back(std::move(candidate));
    }
    std::vector<LaneSpot> chosen;
    for (const Candidate &candidate : all) {
        if (std::none_of(chosen.begin(), chosen.end(), [&](const LaneSpot &spot) {
                return are_one(spot.shape, candidate.spot.shape);
            })) {
            chosen.push_back(candidate.spot);
        }
    }
    std::sort(chosen.begin(), chosen.end(),
              [](const LaneSpot &a, const LaneSpot &b) { return a.shape.y_mm < b.shape.y_mm; });
    for (std::size_t i = 1; i < chosen.size(); ++i) {
        if (reach_over(chosen[i - 1].shape, chosen[i].shape)) {
            chosen[i - 1].overlapping = true;
            chosen[i].overlapping = true;
        }
    }
    return chosen;
}

} // namespace cospot::plate_photo

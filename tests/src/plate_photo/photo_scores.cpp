#include "photo_scores.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace cospot::rendering {
namespace {

using plate_photo::FoundLane;
using plate_photo::FoundPlate;
using plate_photo::FoundSpot;
using plate_photo::PlateLine;

bool is_asked_for(const TrueSpot &spot) {
    return spot.contrast >= kAskedContrast && spot.visibility >= kAskedVisibility && spot.separable;
}

std::string kind_of(const TrueSpot &spot) {
    if (spot.overlapping) {
        return "overlapping";
    }
    switch (spot.kind) {
    case SpotClass::plain:
        return "plain";
    case SpotClass::tailing:
        return "tailing";
    case SpotClass::crescent:
        return "crescent";
    case SpotClass::flat_topped:
        return "flat_topped";
    case SpotClass::at_start:
        return "at_start";
    case SpotClass::at_front:
        return "at_front";
    }
    return "";
}

/// Distance of a found place from a true spot: 1 at its half height, in either direction.
double distance_in_spots(const FoundSpot &found, const TrueSpot &truth) {
    const Extent half = extent(truth.shape, 0.5);
    const double dy = found.y_mm - truth.shape.y_mm;
    const double along =
        std::max(1.0, dy > 0.0 ? half.high_mm - truth.shape.y_mm : truth.shape.y_mm - half.low_mm);
    const double across = std::max(1.0, half_width_mm(truth.shape, 0.5));
    return std::max(std::abs(dy) / along, std::abs(found.x_mm - truth.shape.x_mm) / across);
}

constexpr int kNone = -1;

/// Index of the true spot that each found one is, or kNone.
struct Matching {
    std::vector<int> truth_of, found_of;
};

void match_within(double most, const std::vector<FoundSpot> &found,
                  const std::vector<TrueSpot> &truth, Matching &matching) {
    while (true) {
        double nearest = most;
        int best_found = kNone;
        int best_truth = kNone;
        for (std::size_t i = 0; i < found.size(); ++i) {
            for (std::size_t k = 0; k < truth.size(); ++k) {
                if (matching.truth_of[i] != kNone || matching.found_of[k] != kNone) {
                    continue;
                }
                const double distance = distance_in_spots(found[i], truth[k]);
                if (distance <= nearest) {
                    nearest = distance;
                    best_found = static_cast<int>(i);
                    best_truth = static_cast<int>(k);
                }
            }
        }
        if (best_found == kNone) {
            return;
        }
        matching.truth_of[static_cast<std::size_t>(best_found)] = best_truth;
        matching.found_of[static_cast<std::size_t>(best_truth)] = best_found;
    }
}

bool lies_in_streak(const FoundSpot &found, const std::vector<Streak> &streaks) {
    return std::any_of(streaks.begin(), streaks.end(), [&](const Streak &streak) {
        return std::abs(found.x_mm - streak.x_mm) <= streak.width_mm &&
               found.y_mm >= streak.low_mm - 1.0 && found.y_mm <= streak.high_mm;
    });
}

void count_reading(const FoundPlate &found, const FoundSpot &spot, const TrueSpot &truth,
                   double width_mm, SpotTally &tally) {
    const auto reading = reading_of(found, spot, width_mm);
    if (!reading) {
        ++tally.without_rf;
        return;
    }
    const double error = std::abs(reading->rf - truth.rf);
    tally.rf_errors.push_back(error);
    tally.uncertainties.push_back(reading->uncertainty);
    tally.covered.count(error <= 1.96 * reading->uncertainty);
}

double lane_tolerance_mm(const std::vector<double> &lanes) {
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t k = 1; k < lanes.size(); ++k) {
        least = std::min(least, lanes[k] - lanes[k - 1]);
    }
    return std::clamp(0.25 * least, 1.0, 3.0);
}

} // namespace

std::optional<Reading> reading_of(const FoundPlate &found, const FoundSpot &spot,
                                  double plate_width_mm) {
    if (!found.start || !found.front) {
        return std::nullopt;
    }
    const double start = height_mm(*found.start, spot.x_mm, plate_width_mm);
    const double run = height_mm(*found.front, spot.x_mm, plate_width_mm) - start;
    if (run <= 0.0) {
        return std::nullopt;
    }
    const double rf = (spot.y_mm - start) / run;
    const double of_spot = spot.uncertainty_mm;
    const double of_start = (1.0 - rf) * found.start->uncertainty_mm;
    const double of_front = rf * found.front->uncertainty_mm;
    return Reading{rf, std::hypot(of_spot, of_start, of_front) / run};
}

void count_spots(const FoundPlate &found, const Chromatogram &truth, SpotTally &tally) {
    std::vector<FoundSpot> spots;
    for (const FoundLane &lane : found.lanes) {
        spots.insert(spots.end(), lane.spots.begin(), lane.spots.end());
    }
    Matching matching{std::vector<int>(spots.size(), kNone),
                      std::vector<int>(truth.spots.size(), kNone)};
    match_within(1.0, spots, truth.spots, matching);
    for (std::size_t k = 0; k < truth.spots.size(); ++k) {
        const TrueSpot &spot = truth.spots[k];
        const bool is_found = matching.found_of[k] != kNone;
        if (is_asked_for(spot)) {
            tally.asked.count(is_found);
            tally.kind[kind_of(spot)].count(is_found);
            if (is_found) {
                count_reading(found, spots[static_cast<std::size_t>(matching.found_of[k])], spot,
                              truth.size.width_mm, tally);
            }
        } else if (spot.contrast < kAskedContrast) {
            tally.faint.count(is_found);
        } else if (spot.visibility < kAskedVisibility) {
            tally.drowned.count(is_found);
        }
    }
    match_within(2.0, spots, truth.spots, matching);
    for (std::size_t i = 0; i < spots.size(); ++i) {
        tally.falsely.count(matching.truth_of[i] == kNone &&
                            !lies_in_streak(spots[i], truth.streaks));
    }
}

void count_lanes(const FoundPlate &found, const Chromatogram &truth, LaneTally &tally) {
    const double within = lane_tolerance_mm(truth.lanes_mm);
    std::vector<bool> taken(found.lanes.size(), false);
    bool all_right = true;
    for (std::size_t lane = 0; lane < truth.lanes_mm.size(); ++lane) {
        std::size_t nearest = found.lanes.size();
        double least = within;
        for (std::size_t i = 0; i < found.lanes.size(); ++i) {
            const double distance = std::abs(found.lanes[i].x_mm - truth.lanes_mm[lane]);
            if (!taken[i] && distance <= least) {
                least = distance;
                nearest = i;
            }
        }
        const bool is_right = nearest < found.lanes.size();
        if (is_right) {
            taken[nearest] = true;
        }
        if (std::any_of(truth.spots.begin(), truth.spots.end(), [&](const TrueSpot &spot) {
                return spot.lane == lane && is_asked_for(spot);
            })) {
            tally.lanes.count(is_right);
            all_right &= is_right;
        }
    }
    for (const bool is_taken : taken) {
        if (!is_taken) {
            tally.lanes.count(false);
            all_right = false;
        }
    }
    tally.plates.count(all_right);
}

void count_line(const std::optional<PlateLine> &found, const TrueLine &truth,
                double plate_height_mm, LineTally &tally) {
    if (!truth.visible) {
        tally.false_ones.count(found.has_value());
        return;
    }
    tally.seen.count(found.has_value());
    if (!found) {
        tally.right.count(false);
        return;
    }
    const double off = (std::abs(found->left_mm - truth.line.left_mm) +
                        std::abs(found->middle_mm - truth.line.middle_mm) +
                        std::abs(found->right_mm - truth.line.right_mm)) /
                       3.0;
    tally.right.count(off <= std::max(0.5, 0.007 * plate_height_mm));
}

CornerScore score_corners(const std::optional<plate_photo::Corners> &found,
                          const RenderedPlate &plate) {
    if (!found) {
        return {};
    }
    double sum = 0.0;
    double most = 0.0;
    for (std::size_t k = 0; k < plate.corners.size(); ++k) {
        const double off = plate_photo::distance((*found)[k], plate.corners[k]);
        sum += 0.25 * off;
        most = std::max(most, off);
    }
    const double bound = 0.015 * plate.truth.size.height_mm * plate.pixels_per_mm;
    return {most <= bound ? CornerVerdict::right : CornerVerdict::wrong, sum,
            sum / plate.pixels_per_mm};
}

} // namespace cospot::rendering

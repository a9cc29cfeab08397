#include "evidence/cospots.h"

#include "shared/error.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace cospot {

namespace {

/// A spot farther than this from where it is expected in another lane is another one.
constexpr double kSameHeight_mm = 3.0;

using Spots = std::vector<const PlateSpot *>;

/// Distance of a spot on a lane whose front ran as far as that of `like`.
double distance_on(const PlateSpot &spot, const PlateSpot &like) {
    return spot.distance_mm / spot.front_mm.value() * like.front_mm.value();
}

Spots spots_with(const std::vector<PlateSpot> &spots, RowRole role, const std::string &label) {
    Spots found;
    for (const PlateSpot &spot : spots) {
        if (spot.role == role && spot.label == label) {
            found.push_back(&spot);
        }
    }
    return found;
}

const PlateSpot *nearest(const Spots &spots, double distance_mm, const PlateSpot &like) {
    return *std::min_element(spots.begin(), spots.end(), [&](const auto *a, const auto *b) {
        return std::abs(distance_on(*a, like) - distance_mm) <
               std::abs(distance_on(*b, like) - distance_mm);
    });
}

/// The sample may run in several lanes: the most spots that one of them shows.
std::size_t spots_in_one_lane(const Spots &spots) {
    std::map<std::string, std::size_t> counts;
    std::size_t most = 0;
    for (const PlateSpot *spot : spots) {
        most = std::max(most, ++counts[spot->lane]);
    }
    return most;
}

CoSpot cospot_of(const PlateSpot &spot, const std::string &sample, const std::string &standard,
                 double distance_mm) {
    return {.lane = spot.lane,
            .sample = sample,
            .standard = standard,
            .distance_mm = distance_mm,
            .is_noted_rf = spot.noted_rf.has_value(),
            .front_mm = spot.front_mm.value()};
}

/// Where the spot of the sample is that may be the standard.
struct Expected {
    Spots alone;                    ///< spots of the sample on its own lanes
    Spots standard;                 ///< of the standard on its own
    const PlateSpot *own = nullptr; ///< of the sample
    double own_mm = 0.0;            ///< its distance on the lane of the co-spot
    double standard_mm = 0.0;       ///< of the standard's
};

Expected expected_on(const PlateSpot &first, const std::vector<PlateSpot> &spots,
                     const std::string &file) {
    Expected expected{.alone = spots_with(spots, RowRole::sample, first.label),
                      .standard = spots_with(spots, RowRole::standard, first.over)};
    if (expected.alone.empty()) {
        throw InputError({file, first.line, "label"},
                         "a co-spot of " + in_quotes(first.label) +
                             ", which has no lane of its own",
                         "a lane with the role sample and the label " + in_quotes(first.label));
    }
    expected.standard_mm =
        distance_on(expected.standard.empty() ? first : *expected.standard.front(), first);
    expected.own = nearest(expected.alone, expected.standard_mm, first);
    expected.own_mm = distance_on(*expected.own, first);
    return expected;
}

/// Distances of the spots of the lane that are the sample's own or the standard's.
std::vector<double> spots_near(const Spots &lane, const Expected &expected) {
    std::vector<double> near;
    for (const PlateSpot *spot : lane) {
        const double from_standard = std::abs(spot->distance_mm - expected.standard_mm);
        const bool is_of_another =
            nearest(expected.alone, spot->distance_mm, *lane.front()) != expected.own &&
            from_standard > kOneSpot_mm;
        if (!is_of_another && (std::abs(spot->distance_mm - expected.own_mm) <= kSameHeight_mm ||
                               from_standard <= kSameHeight_mm)) {
            near.push_back(spot->distance_mm);
        }
    }
    return near;
}

/// How far the lane's one spot lies from where the standard ran alone; 0 where that is no farther
/// than three standard uncertainties of the difference.
double standard_is_off_mm(const Spots &lane, const Expected &expected, double reading_error_mm) {
    constexpr double sure = 3.0;
    if (expected.standard.empty()) {
        return 0.0;
    }
    const PlateSpot &seen = *nearest(lane, expected.own_mm, *lane.front());
    const PlateSpot &alone = *nearest(expected.standard, seen.distance_mm, seen);
    const double apart = std::abs(distance_on(alone, seen) - seen.distance_mm);
    const double error =
        seen.front_mm.value() * std::hypot(rf_of(seen, reading_error_mm).standard_uncertainty,
                                           rf_of(alone, reading_error_mm).standard_uncertainty);
    return apart > sure * error ? apart : 0.0;
}

/// What one lane of co-spots shows; all of its spots have the same label.
CoSpot cospot_on(const Spots &lane, const std::vector<PlateSpot> &spots, double reading_error_mm,
                 const std::string &file) {
    const PlateSpot &first = *lane.front();
    const Expected expected = expected_on(first, spots, file);
    CoSpot cospot = cospot_of(first, first.label, first.over, expected.own->distance_mm);
    const bool is_own_there = std::any_of(lane.begin(), lane.end(), [&](const PlateSpot *spot) {
        return std::abs(spot->distance_mm - expected.own_mm) <= kSameHeight_mm;
    });
    const std::vector<double> near = spots_near(lane, expected);
    const bool is_more =
        expected.standard.empty() && lane.size() > spots_in_one_lane(expected.alone);
    if (!is_own_there) {
        cospot.finding = CoSpotFinding::sample_missing;
    } else if (near.size() > 1) {
        const auto [low, high] = std::minmax_element(near.begin(), near.end());
        cospot.apart_mm = *high - *low;
        cospot.finding = CoSpotFinding::two_spots;
    } else if (is_more) {
        const auto [low, high] =
            std::minmax_element(lane.begin(), lane.end(), [](const auto *a, const auto *b) {
                return a->distance_mm < b->distance_mm;
            });
        cospot.apart_mm = (*high)->distance_mm - (*low)->distance_mm;
        cospot.finding = CoSpotFinding::two_spots;
    } else if (const double off = standard_is_off_mm(lane, expected, reading_error_mm); off > 0.0) {
        cospot.apart_mm = off;
        cospot.finding = CoSpotFinding::standard_missing;
    }
    return cospot;
}

/// A lane of co-spots holds one sample over one standard.
void check_labels_of(const Spots &lane, const std::string &file) {
    for (const PlateSpot *spot : lane) {
        if (spot->label != lane.front()->label || spot->over != lane.front()->over) {
            throw InputError({file, spot->line, "label"},
                             in_quotes(spot->label + " + " + spot->over) + " in lane " +
                                 in_quotes(spot->lane),
                             "one label for a lane of co-spots, " +
                                 in_quotes(lane.front()->label + " + " + lane.front()->over));
        }
    }
}

} // namespace

std::vector<CoSpot> cospots_of(const std::vector<PlateSpot> &spots, const std::string &file,
                               double reading_error_mm) {
    std::map<std::string, Spots> lanes;
    std::vector<CoSpot> found;
    for (const PlateSpot &spot : spots) {
        if (spot.role == RowRole::cospot) {
            lanes[spot.lane].push_back(&spot);
        }
    }
    found.reserve(lanes.size());
    for (const auto &[lane, its_spots] : lanes) {
        check_labels_of(its_spots, file);
        found.push_back(cospot_on(its_spots, spots, reading_error_mm, file));
    }
    for (const PlateSpot &sample : spots) {
        for (const PlateSpot &standard : spots) {
            if (sample.role == RowRole::sample && standard.role == RowRole::standard &&
                sample.lane == standard.lane) {
                CoSpot &added = found.emplace_back(
                    cospot_of(sample, sample.label, standard.label, sample.distance_mm));
                added.apart_mm = std::abs(sample.distance_mm - standard.distance_mm);
                added.finding = added.apart_mm <= kOneSpot_mm ? CoSpotFinding::one_spot
                                                              : CoSpotFinding::two_spots;
            }
        }
    }
    return found;
}

double log_ratio_of(const CoSpot &cospot) {
    // One spot is seen of one compound, and in three of ten cases of two at about the same height;
    // two spots are seen of one compound where it was misread or tails.
    constexpr double one_of_one = 0.98;
    constexpr double one_of_two = 0.3;
    switch (cospot.finding) {
    case CoSpotFinding::one_spot:
        return std::log(one_of_one / one_of_two);
    case CoSpotFinding::two_spots:
        return std::log((1.0 - one_of_one) / (1.0 - one_of_two));
    case CoSpotFinding::sample_missing:
    case CoSpotFinding::standard_missing:
        break;
    }
    return 0.0;
}

std::string words_of(const CoSpot &cospot) {
    const std::string where = fmt::format("co-spot of {} and {} on lane {}",
                                          cospot.sample.empty() ? "the sample" : cospot.sample,
                                          cospot.standard, cospot.lane);
    const std::string apart = cospot.is_noted_rf
                                  ? fmt::format("{:.2f} in Rf", cospot.apart_mm / cospot.front_mm)
                                  : fmt::format("{:.1f} mm", cospot.apart_mm);
    switch (cospot.finding) {
    case CoSpotFinding::one_spot:
        return where + ": one spot; they run together";
    case CoSpotFinding::two_spots:
        return fmt::format("{}: two spots, {} apart; they differ", where, apart);
    case CoSpotFinding::sample_missing:
        return where + ": the sample's own spot is missing there, so it can't be judged";
    case CoSpotFinding::standard_missing:
        break;
    }
    return fmt::format("{}: the standard's spot is missing there ({} from the one spot on its own "
                       "lane), so it can't be judged",
                       where, apart);
}

} // namespace cospot

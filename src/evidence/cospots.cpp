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

/// What one lane of co-spots shows; all of its spots have the same label.
CoSpot cospot_on(const Spots &lane, const std::vector<PlateSpot> &spots, const std::string &file) {
    const PlateSpot &first = *lane.front();
    const Spots alone = spots_with(spots, RowRole::sample, first.label);
    if (alone.empty()) {
        throw InputError({file, first.line, "label"},
                         "a co-spot of " + in_quotes(first.label) +
                             ", which has no lane of its own",
                         "a lane with the role sample and the label " + in_quotes(first.label));
    }
    const Spots standard = spots_with(spots, RowRole::standard, first.over);
    const double expected = distance_on(standard.empty() ? first : *standard.front(), first);
    const PlateSpot *own = nearest(alone, expected, first);
    const double own_mm = distance_on(*own, first);
    CoSpot cospot{first.lane, first.label, first.over, own->distance_mm, 0.0, true, true};
    std::vector<double> near; // spots of the lane that are this one's or the standard's
    for (const PlateSpot *spot : lane) {
        const bool is_of_another = nearest(alone, spot->distance_mm, first) != own &&
                                   std::abs(spot->distance_mm - expected) > kOneSpot_mm;
        if (!is_of_another && (std::abs(spot->distance_mm - own_mm) <= kSameHeight_mm ||
                               std::abs(spot->distance_mm - expected) <= kSameHeight_mm)) {
            near.push_back(spot->distance_mm);
        }
    }
    cospot.is_judged = std::any_of(lane.begin(), lane.end(), [&](const PlateSpot *spot) {
        return std::abs(spot->distance_mm - own_mm) <= kSameHeight_mm;
    });
    const bool is_more = standard.empty() && lane.size() > spots_in_one_lane(alone);
    if (near.size() > 1 || is_more) {
        const auto [low, high] = std::minmax_element(near.begin(), near.end());
        const auto [lowest, highest] =
            std::minmax_element(lane.begin(), lane.end(), [](const auto *a, const auto *b) {
                return a->distance_mm < b->distance_mm;
            });
        cospot.apart_mm =
            near.size() > 1 ? *high - *low : (*highest)->distance_mm - (*lowest)->distance_mm;
        cospot.is_one = false;
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

std::vector<CoSpot> cospots_of(const std::vector<PlateSpot> &spots, const std::string &file) {
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
        found.push_back(cospot_on(its_spots, spots, file));
    }
    for (const PlateSpot &sample : spots) {
        for (const PlateSpot &standard : spots) {
            if (sample.role == RowRole::sample && standard.role == RowRole::standard &&
                sample.lane == standard.lane) {
                const double apart = std::abs(sample.distance_mm - standard.distance_mm);
                found.push_back({sample.lane, sample.label, standard.label, sample.distance_mm,
                                 apart, apart <= kOneSpot_mm, true});
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
    if (!cospot.is_judged) {
        return 0.0;
    }
    return cospot.is_one ? std::log(one_of_one / one_of_two)
                         : std::log((1.0 - one_of_one) / (1.0 - one_of_two));
}

std::string words_of(const CoSpot &cospot) {
    const std::string where = fmt::format("co-spot of {} and {} on lane {}",
                                          cospot.sample.empty() ? "the sample" : cospot.sample,
                                          cospot.standard, cospot.lane);
    if (!cospot.is_judged) {
        return where + ": the sample's own spot is missing there, so it can't be judged";
    }
    if (cospot.is_one) {
        return where + ": one spot; they run together";
    }
    return fmt::format("{}: two spots, {:.1f} mm apart; they differ", where, cospot.apart_mm);
}

} // namespace cospot

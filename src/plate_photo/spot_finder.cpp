#include "plate_photo/spot_finder.h"

#include "plate_photo/channel.h"
#include "plate_photo/given_places.h"
#include "plate_photo/lane_spots.h"
#include "plate_photo/lanes.h"
#include "plate_photo/layer_light.h"
#include "plate_photo/plate_lines.h"
#include "plate_photo/plate_notes.h"
#include "plate_photo/spot_field.h"
#include "plate_photo/spot_shape.h"
#include "plate_photo/spot_uncertainty.h"
#include "shared/error.h"
#include "shared/number.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot::plate_photo {

namespace {

constexpr double kLeastPixelsPerMm = 2.0;
constexpr double kClearDeviations = 6.0; ///< that one is high which tells where a lane is
constexpr double kMarginMm = 2.5;        ///< beside edges of the plate, where no line is known
constexpr double kBesideLineMm = 1.5;    ///< how far off a line a spot on it may lie
constexpr double kGivenReachMm = 4.0;    ///< around a place that is given
constexpr double kCoreWidths = 0.5;      ///< of a lane's profile, in widths of a spot
constexpr double kMostCore = 0.5;        ///< in widths of the lane
constexpr double kLeastLaneCoreMm = 1.0;
constexpr double kAloneMm = 5.0;
constexpr double kMostSpotWidthMm = 16.0;
constexpr double kEdgeMm = 1.0;

/// What the parts of the search share.
struct Sight {
    PlateSize size;
    SpotField spots;
    double low_mm = 0.0; ///< between which spots lie
    double high_mm = 0.0;
};

double lowest(const PlateLine &line) {
    return std::min({line.left_mm, line.middle_mm, line.right_mm});
}

double highest(const PlateLine &line) {
    return std::max({line.left_mm, line.middle_mm, line.right_mm});
}

Sight sight_of(const LayerLight &layer, const PlateLines &seen, const FoundPlate &plate,
               PlateSize size) {
    Sight sight;
    sight.size = size;
    sight.spots = spot_field(spot_signal(layer, plate.light), seen);
    sight.low_mm = plate.start ? lowest(*plate.start) - kBesideLineMm : kMarginMm;
    sight.high_mm =
        plate.front ? highest(*plate.front) + kBesideLineMm : size.height_mm - kMarginMm;
    return sight;
}

std::vector<LanePlace> lane_places(const Sight &sight, const std::vector<Blob> &seen,
                                   const PlateSettings &settings) {
    if (!settings.lanes_mm.empty()) {
        return lanes_at(settings.lanes_mm, sight.size.width_mm, kAloneMm);
    }
    return found_lanes(seen, sight.size.width_mm);
}

bool between_lines(const Sight &sight, const FoundPlate &plate, double x_mm, double y_mm) {
    const double width = sight.size.width_mm;
    const bool above_start = plate.start
                                 ? y_mm >= height_at(*plate.start, x_mm, width) - kBesideLineMm
                                 : y_mm >= sight.low_mm;
    const bool below_front = plate.front
                                 ? y_mm <= height_at(*plate.front, x_mm, width) + kBesideLineMm
                                 : y_mm <= sight.high_mm;
    return above_start && below_front;
}

FoundSpot spot_of(const Sight &sight, const FoundPlate &plate, const SpotShape &shape,
                  bool overlapping) {
    FoundSpot spot;
    spot.x_mm = shape.x_mm;
    spot.y_mm = shape.y_mm;
    spot.uncertainty_mm = spot_uncertainty(
        shape, overlapping, value_at(sight.spots.noise, shape.x_mm, shape.y_mm), sight.size);
    spot.low_mm = shape.low_mm;
    spot.high_mm = shape.high_mm;
    spot.width_mm = shape.width_mm;
    spot.contrast = shape.contrast;
    spot.intensity = shape.area;
    spot.tailing = is_tailing(shape);
    spot.overlapping = overlapping;
    const double half = 0.5 * shape.width_mm;
    spot.at_edge = shape.x_mm - half < kEdgeMm ||
                   shape.x_mm + half > sight.size.width_mm - kEdgeMm || shape.low_mm < kEdgeMm ||
                   shape.high_mm > sight.size.height_mm - kEdgeMm;
    spot.crooked_front = is_crooked_at(plate, shape.x_mm, sight.size);
    return spot;
}

/// The spots that are seen in a lane.
std::vector<FoundSpot> seen_spots(const Sight &sight, const FoundPlate &plate,
                                  const LanePlace &lane, double core_mm) {
    std::vector<FoundSpot> spots;
    for (const LaneSpot &spot :
         lane_spots(sight.spots, lane, core_mm, sight.low_mm, sight.high_mm)) {
        if (between_lines(sight, plate, spot.shape.x_mm, spot.shape.y_mm)) {
            spots.push_back(spot_of(sight, plate, spot.shape, spot.overlapping));
        }
    }
    return spots;
}

/// The spots that the user says are in a lane; what is seen there tells how large they are.
std::vector<FoundSpot> given_spots(const Sight &sight, const FoundPlate &plate,
                                   const LanePlace &lane, const std::vector<double> &y_mm) {
    std::vector<FoundSpot> spots;
    for (const double y : y_mm) {
        const auto shape =
            spot_shape(sight.spots.signal.sharp, lane, y, y - kGivenReachMm, y + kGivenReachMm);
        FoundSpot spot;
        if (shape) {
            spot = spot_of(sight, plate, *shape, false);
        } else {
            spot.x_mm = lane.x_mm;
            spot.low_mm = y;
            spot.high_mm = y;
        }
        spot.y_mm = y;
        spot.low_mm = std::min(spot.low_mm, y);
        spot.high_mm = std::max(spot.high_mm, y);
        spot.uncertainty_mm = kGivenUncertaintyMm;
        spot.crooked_front = is_crooked_at(plate, spot.x_mm, sight.size);
        spot.given = true;
        spots.push_back(spot);
    }
    std::sort(spots.begin(), spots.end(),
              [](const FoundSpot &a, const FoundSpot &b) { return a.y_mm < b.y_mm; });
    return spots;
}

void share_intensity(std::vector<FoundSpot> &spots) {
    double sum = 0.0;
    for (const FoundSpot &spot : spots) {
        sum += spot.intensity;
    }
    for (FoundSpot &spot : spots) {
        spot.intensity = sum > 0.0 ? 100.0 * spot.intensity / sum : 0.0;
    }
}

void find_lanes_and_spots(const Sight &sight, const PlateSettings &settings, FoundPlate &plate) {
    std::vector<Blob> seen = blobs(sight.spots.signal.usual().signal, kLeastSignal, sight.low_mm,
                                   sight.high_mm, kMostSpotWidthMm);
    std::erase_if(seen, [&](const Blob &blob) {
        return sight.spots.signal.deviations_at(blob.x_mm, blob.y_mm) < kClearDeviations ||
               !is_broad(sight.spots, blob.x_mm, blob.y_mm) ||
               reaches_edge(sight.spots.signal.usual().signal, blob.x_mm, blob.y_mm);
    });
    for (const LanePlace &place : lane_places(sight, seen, settings)) {
        FoundLane lane{
            .x_mm = place.x_mm, .left_mm = place.left_mm, .right_mm = place.right_mm, .spots = {}};
        const double core =
            std::max(kLeastLaneCoreMm, std::min(kCoreWidths * usual_width(seen),
                                                kMostCore * (lane.right_mm - lane.left_mm)));
        lane.spots = seen_spots(sight, plate, place, core);
        plate.lanes.push_back(std::move(lane));
    }
}

void take_given_spots(const Sight &sight, const PlateSettings &settings, FoundPlate &plate) {
    for (const PlateSettings::GivenSpots &given : settings.spots) {
        if (given.lane > plate.lanes.size()) {
            throw InputError({.file = "command line, --spots", .line = 0, .column = {}},
                             fmt::format("lane {}", given.lane),
                             fmt::format("a lane from 1 to {}", plate.lanes.size()));
        }
        FoundLane &lane = plate.lanes[given.lane - 1];
        lane.spots =
            given_spots(sight, plate, {lane.x_mm, lane.left_mm, lane.right_mm}, given.y_mm);
    }
}

} // namespace

FoundPlate find_spots(const FlatPlate &plate, const PlateSettings &settings) {
    if (!(plate.pixels_per_mm >= kLeastPixelsPerMm)) {
        throw InputError(
            {}, fmt::format("{:.2g} pixels a millimetre of the plate", plate.pixels_per_mm),
            "2 or more: a photo from nearer, or with more pixels");
    }
    require_on_plate(settings, plate.size);
    const LayerLight layer = layer_light(plate);
    FoundPlate found;
    found.light = settings.light.value_or(tell_light(layer));
    const PlateLines seen = seen_lines(layer);
    found.start = settings.start_mm ? given_line(*settings.start_mm) : seen.start;
    found.front = settings.front_mm ? given_line(*settings.front_mm) : seen.front;
    const Sight sight = sight_of(layer, seen, found, plate.size);
    find_lanes_and_spots(sight, settings, found);
    take_given_spots(sight, settings, found);
    for (FoundLane &lane : found.lanes) {
        share_intensity(lane.spots);
    }
    found.notes = plate_notes(found, plate.size, settings.light.has_value());
    return found;
}

} // namespace cospot::plate_photo

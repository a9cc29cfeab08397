#include "readers/plate_spots.h"

#include "shared/number.h"
#include "shared/text.h"

#include <fmt/format.h>

namespace cospot {

namespace {

/// A lane has one front, and carries one sample.
void check_lane(const TableReader &table, const PlateSpot &spot, const PlateSpot &before) {
    const std::string lane = lane_name(spot.plate, spot.lane);
    if (spot.front_mm && before.front_mm && *spot.front_mm != *before.front_mm) {
        throw InputError(table.where("front_mm"),
                         fmt::format("{} mm in lane {}", exact_text(*spot.front_mm), lane),
                         fmt::format("{} mm as in line {}: a lane has one front",
                                     exact_text(*before.front_mm), before.line));
    }
    const bool are_samples = spot.role == RowRole::sample && before.role == RowRole::sample;
    if (are_samples && spot.label != before.label) {
        throw InputError(table.where("label"),
                         fmt::format("{} in lane {}", in_quotes(spot.label), lane),
                         fmt::format("{} as in line {}: a lane carries one sample",
                                     in_quotes(before.label), before.line));
    }
}

/// A plate has one date and one system.
void check_same(const std::string &stated, const std::string &before, const Where &where,
                const char *what) {
    if (!stated.empty() && !before.empty() && stated != before) {
        throw InputError(where, in_quotes(stated),
                         in_quotes(before) + " as before: a plate has one " + what);
    }
}

} // namespace

std::string lane_name(const std::string &plate, const std::string &lane) {
    return plate.empty() ? lane : lane + " of plate " + plate;
}

void check_distance(const PlateSpot &spot, const Where &where) {
    if (spot.distance_mm < 0.0) {
        throw InputError(where, exact_text(spot.distance_mm), "a distance from 0 mm");
    }
    if (spot.front_mm && spot.distance_mm > *spot.front_mm) {
        throw InputError(where, exact_text(spot.distance_mm) + " mm",
                         "at most the distance of the front, " + exact_text(*spot.front_mm) +
                             " mm");
    }
}

void check_standards(const std::vector<PlateSpot> &spots, const std::string &file,
                     LeftOut &left_out) {
    std::map<std::tuple<std::string, std::string, std::string>, std::size_t> lines; // of the first
    Faults faults;
    for (const PlateSpot &spot : spots) {
        if (spot.role != RowRole::standard) {
            continue;
        }
        const auto [first, is_first] =
            lines.try_emplace({spot.plate, spot.lane, spot.label}, spot.line);
        if (is_first) {
            continue;
        }
        const InputError fault(
            {file, spot.line, "label"},
            fmt::format("a second spot of standard {} in its lane{}", in_quotes(spot.label),
                        first->second == 0 ? ""
                                           : fmt::format(" (the first: line {})", first->second)),
            "one spot a standard and lane; leave out its impurities, and label what is another "
            "compound");
        if (!left_out.take(lane_name(spot.plate, spot.lane), fault)) {
            faults.add(fault);
        }
    }
    faults.throw_any();
}

void PlateSpots::add(const TableReader &table, PlateSpot spot) {
    std::size_t &count = counts_[{spot.plate, spot.lane}];
    if (!table.has("spot")) {
        spot.spot = std::to_string(++count);
    }
    if (!seen_.insert({spot.plate, spot.lane, spot.spot}).second) {
        throw InputError(table.where("spot"),
                         "spot " + in_quotes(spot.spot) + " of lane " +
                             in_quotes(lane_name(spot.plate, spot.lane)) + " again",
                         "each spot of a lane once");
    }
    const auto [first, is_first] =
        lanes_.try_emplace({spot.plate, spot.lane, spot.role}, spots_.size());
    if (!is_first) {
        check_lane(table, spot, spots_[first->second]);
    }
    keep_plate(table, spot);
    keep_front(spot);
    spots_.push_back(std::move(spot));
}

void PlateSpots::add_empty_lane(const TableReader &table, const PlateSpot &row) {
    keep_plate(table, row);
    keep_front(row);
}

void PlateSpots::set_plates() {
    for (PlateSpot &spot : spots_) {
        spot.date = plates_.at(spot.plate).date;
        spot.system = plates_.at(spot.plate).system;
    }
}

void PlateSpots::set_fronts(const std::string &file, LeftOut &left_out) {
    Faults faults;
    for (PlateSpot &spot : spots_) {
        const auto lane = fronts_of_lanes_.find({spot.plate, spot.lane});
        const auto plate = fronts_of_plates_.find(spot.plate);
        if (spot.front_mm || plate == fronts_of_plates_.end()) {
            continue;
        }
        spot.front_mm = lane != fronts_of_lanes_.end() ? lane->second : plate->second;
        try {
            check_distance(spot, {file, spot.line, "distance_mm"});
        } catch (const InputError &fault) {
            if (!left_out.take(lane_name(spot.plate, spot.lane), fault)) {
                faults.add(fault);
            }
        }
    }
    faults.throw_any();
}

void PlateSpots::leave_out(const LeftOut &left_out) {
    std::erase_if(spots_, [&](const PlateSpot &spot) {
        return left_out.holds(lane_name(spot.plate, spot.lane));
    });
}

void PlateSpots::keep_plate(const TableReader &table, const PlateSpot &spot) {
    Plate &plate = plates_[spot.plate];
    check_same(spot.date, plate.date, table.where("date"), "date");
    check_same(spot.system, plate.system, table.where("system"), "system");
    plate.date = plate.date.empty() ? spot.date : plate.date;
    plate.system = plate.system.empty() ? spot.system : plate.system;
}

void PlateSpots::keep_front(const PlateSpot &spot) {
    if (spot.front_mm) {
        fronts_of_lanes_.try_emplace({spot.plate, spot.lane}, *spot.front_mm);
        fronts_of_plates_.try_emplace(spot.plate, *spot.front_mm);
    }
}

} // namespace cospot

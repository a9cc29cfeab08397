#pragma once

#include "readers/plate_table.h"
#include "shared/left_out.h"

#include <cstddef>
#include <map>
#include <set>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

namespace cospot {

/// A lane of a plate, as messages name it: "2 of plate A".
[[nodiscard]] std::string lane_name(const std::string &plate, const std::string &lane);

/// Throws InputError at `where` for a spot below the start or beyond its front.
void check_distance(const PlateSpot &spot, const Where &where);

/// A lane of a standard has one spot of it: a second one is its impurity, or another compound whose
/// label is missing, and its R_F would count as that of the standard. Throws InputError for those
/// that `left_out` does not take with their lane.
void check_standards(const std::vector<PlateSpot> &spots, const std::string &file,
                     LeftOut &left_out);

/// The spots of a file while they are read.
class PlateSpots {
public:
    /// Throws InputError for what contradicts earlier rows: a spot twice, a second front of a lane,
    /// a second sample in it, a second date or system of a plate.
    void add(const TableReader &table, PlateSpot spot);

    /// Keeps what a row without a spot says of its plate and lane: front, date and system.
    void add_empty_lane(const TableReader &table, const PlateSpot &row);

    /// Gives each spot the date and the system that are stated on its plate.
    void set_plates();

    /// Gives each spot the front of its lane, else the first one that is stated on its plate.
    void set_fronts(const std::string &file, LeftOut &left_out);

    /// Does what the function of that name says.
    void check_standards(const std::string &file, LeftOut &left_out) const {
        cospot::check_standards(spots_, file, left_out);
    }

    void leave_out(const LeftOut &left_out);

    [[nodiscard]] std::vector<PlateSpot> taken() && { return std::move(spots_); }

private:
    struct Plate {
        std::string date;
        std::string system;
    };

    void keep_plate(const TableReader &table, const PlateSpot &spot);
    void keep_front(const PlateSpot &spot);

    std::vector<PlateSpot> spots_;
    std::map<std::string, Plate> plates_;
    std::set<std::tuple<std::string, std::string, std::string>> seen_;
    std::map<std::tuple<std::string, std::string, RowRole>, std::size_t> lanes_; ///< first spots
    std::map<std::pair<std::string, std::string>, std::size_t> counts_;
    std::map<std::pair<std::string, std::string>, double> fronts_of_lanes_; ///< the first stated
    std::map<std::string, double> fronts_of_plates_;
};

} // namespace cospot

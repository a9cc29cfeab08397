#include "readers/plate_table.h"

#include "readers/date_column.h"
#include "readers/instrument_number.h"
#include "readers/measured_amount.h"
#include "shared/grouped.h"
#include "shared/left_out.h"
#include "shared/number.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <map>
#include <set>
#include <tuple>
#include <utility>

namespace cospot {

namespace {

/// Takes the label of a co-spot apart: "flask 7 + vanillin".
void read_cospot(const TableReader &table, PlateSpot &spot) {
    const std::size_t plus = spot.label.rfind(" + ");
    if (plus == std::string::npos) {
        throw InputError(table.where("label"), in_quotes(spot.label),
                         "the sample and the standard of a co-spot, as in flask 7 + vanillin");
    }
    spot.over = trimmed(std::string_view(spot.label).substr(plus + 3));
    spot.label = trimmed(std::string_view(spot.label).substr(0, plus));
}

void check_front(const TableReader &table, double front_mm) {
    if (front_mm < kMinFront_mm || front_mm > kMaxFront_mm) {
        throw InputError(table.where("front_mm"), exact_text(front_mm),
                         "the distance of the front, 10 to 2000 mm (a column in cm says so in its "
                         "header: front (cm))");
    }
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

PlateSpot read_spot(const TableReader &table) {
    PlateSpot spot;
    spot.plate = table.text("plate");
    spot.date = read_past_date(table);
    spot.system = table.text("system");
    spot.lane = table.required_text("lane", "the number or name of the lane");
    spot.label = table.text("label");
    if (table.has("spot")) {
        spot.spot = table.required_text("spot", "the number or name of the spot");
    }
    spot.distance_mm = table.number("distance_mm", "the distance of the spot in mm");
    spot.front_mm = table.optional_number("front_mm", "the distance of the solvent front in mm");
    spot.role = read_role(table, RowRole::sample, true);
    spot.area = read_measured_amount(table, "area", "the area of a spot").value;
    check_of_instrument(table, "area", spot.area);
    (void)read_further_evidence(table, spot.further);
    spot.line = table.line();
    if (spot.front_mm) {
        table.keep_fault([&] { check_front(table, *spot.front_mm); });
    }
    table.keep_fault([&] { check_distance(spot, table.where("distance_mm")); });
    if (spot.role == RowRole::standard && spot.label.empty()) {
        table.add_fault({table.where("label"), "nothing", "the name of the standard's compound"});
    }
    if (spot.role == RowRole::cospot) {
        table.keep_fault([&] { read_cospot(table, spot); });
    }
    return spot;
}

/// A lane of a plate, as messages name it.
std::string lane_name(const std::string &plate, const std::string &lane) {
    return plate.empty() ? lane : lane + " of plate " + plate;
}

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

/// The spots of a file while they are read.
class Spots {
public:
    void add(const TableReader &table, PlateSpot spot) {
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
        spots_.push_back(std::move(spot));
    }

    /// Gives each spot the date and the system that are stated on its plate.
    void set_plates() {
        for (PlateSpot &spot : spots_) {
            spot.date = plates_.at(spot.plate).date;
            spot.system = plates_.at(spot.plate).system;
        }
    }

    /// Gives each spot the front of its lane, else the first one that is stated on its plate.
    void set_fronts(const std::string &file, LeftOut &left_out) {
        std::map<std::pair<std::string, std::string>, double> of_lanes;
        std::map<std::string, double> of_plates;
        for (const PlateSpot &spot : spots_) {
            if (spot.front_mm) {
                of_lanes.try_emplace({spot.plate, spot.lane}, *spot.front_mm);
                of_plates.try_emplace(spot.plate, *spot.front_mm);
            }
        }
        Faults faults;
        for (PlateSpot &spot : spots_) {
            const auto lane = of_lanes.find({spot.plate, spot.lane});
            const auto plate = of_plates.find(spot.plate);
            if (spot.front_mm || plate == of_plates.end()) {
                continue;
            }
            spot.front_mm = lane != of_lanes.end() ? lane->second : plate->second;
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

    [[nodiscard]] std::vector<PlateSpot> taken() && { return std::move(spots_); }

    void leave_out(const LeftOut &left_out) {
        std::erase_if(spots_, [&](const PlateSpot &spot) {
            return left_out.holds(lane_name(spot.plate, spot.lane));
        });
    }

private:
    struct Plate {
        std::string date;
        std::string system;
    };

    void keep_plate(const TableReader &table, const PlateSpot &spot) {
        Plate &plate = plates_[spot.plate];
        check_same(spot.date, plate.date, table.where("date"), "date");
        check_same(spot.system, plate.system, table.where("system"), "system");
        plate.date = plate.date.empty() ? spot.date : plate.date;
        plate.system = plate.system.empty() ? spot.system : plate.system;
    }

    std::vector<PlateSpot> spots_;
    std::map<std::string, Plate> plates_;
    std::set<std::tuple<std::string, std::string, std::string>> seen_;
    std::map<std::tuple<std::string, std::string, RowRole>, std::size_t> lanes_; ///< first spots
    std::map<std::pair<std::string, std::string>, std::size_t> counts_;
};

std::vector<TableColumn> plate_columns() {
    return {{"plate", false}, {"date", false},       {"lane", true},      {"label", false},
            {"spot", false},  {"distance_mm", true}, {"front_mm", false}, {"role", false},
            {"area", false},  {"uv254", false},      {"stain", false},    {"stained", false},
            {"system", false}};
}

} // namespace

std::vector<PlateSpot> read_plate(std::istream &in, const std::string &file, const TableForm &form,
                                  std::vector<std::string> *notes) {
    TableReader table(in, file, plate_columns(), form.aliases);
    Spots spots;
    LeftOut left_out(form.is_partial);
    bool has_rows = false;
    for_each_row(
        table,
        [&] {
            has_rows = true;
            spots.add(table, read_spot(table));
        },
        [&](const InputError &fault) {
            const std::string lane(table.text("lane"));
            return left_out.take(
                lane.empty() ? "" : lane_name(std::string(table.text("plate")), lane), fault);
        });
    if (!has_rows) {
        throw InputError({file, table.line(), ""}, "a header without rows", "one row a spot");
    }
    spots.set_fronts(file, left_out);
    spots.leave_out(left_out);
    spots.set_plates();
    if (notes != nullptr) {
        *notes = notes_on(table, left_out, "lane");
    }
    return std::move(spots).taken();
}

std::vector<std::vector<PlateSpot>> by_plate(std::vector<PlateSpot> spots) {
    return grouped(std::move(spots), [](const PlateSpot &spot) { return spot.plate; });
}

double stated_front_mm(const PlateSpot &spot, const std::string &file) {
    if (!spot.front_mm) {
        throw InputError({file, spot.line, "front_mm"}, "no front",
                         "the distance of the solvent front, in one row of the plate");
    }
    return *spot.front_mm;
}

} // namespace cospot

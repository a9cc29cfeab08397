#include "readers/plate_table.h"

#include "readers/instrument_number.h"
#include "shared/number.h"
#include "shared/table.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <map>
#include <set>
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

PlateSpot read_spot(const TableReader &table) {
    PlateSpot spot;
    spot.lane = table.required_text("lane", "the number or name of the lane");
    spot.label = table.text("label");
    spot.spot = table.required_text("spot", "the number or name of the spot");
    spot.distance_mm = table.number("distance_mm", "the distance of the spot in mm");
    spot.front_mm = table.number("front_mm", "the distance of the solvent front in mm");
    spot.role = read_role(table, RowRole::sample, true);
    spot.area = table.optional_amount("area", "the area of a spot");
    check_of_instrument(table, "area", spot.area);
    spot.line = table.line();
    if (spot.front_mm < kMinFront_mm || spot.front_mm > kMaxFront_mm) {
        throw InputError(table.where("front_mm"), exact_text(spot.front_mm),
                         "the distance of the front, 10 to 2000 mm (not cm)");
    }
    if (spot.distance_mm < 0.0) {
        throw InputError(table.where("distance_mm"), exact_text(spot.distance_mm),
                         "a distance from 0 mm");
    }
    if (spot.distance_mm > spot.front_mm) {
        throw InputError(table.where("distance_mm"), exact_text(spot.distance_mm) + " mm",
                         "at most the distance of the front, " + exact_text(spot.front_mm) + " mm");
    }
    if (spot.role == RowRole::standard && spot.label.empty()) {
        throw InputError(table.where("label"), "nothing", "the name of the standard's compound");
    }
    if (spot.role == RowRole::cospot) {
        read_cospot(table, spot);
    }
    return spot;
}

/// A lane has one front, and carries one sample.
void check_lane(const TableReader &table, const PlateSpot &spot, const PlateSpot &before) {
    if (spot.front_mm != before.front_mm) {
        throw InputError(table.where("front_mm"),
                         fmt::format("{} mm in lane {}", exact_text(spot.front_mm), spot.lane),
                         fmt::format("{} mm as in line {}: a lane has one front",
                                     exact_text(before.front_mm), before.line));
    }
    const bool are_samples = spot.role == RowRole::sample && before.role == RowRole::sample;
    if (are_samples && spot.label != before.label) {
        throw InputError(table.where("label"),
                         fmt::format("{} in lane {}", in_quotes(spot.label), spot.lane),
                         fmt::format("{} as in line {}: a lane carries one sample",
                                     in_quotes(before.label), before.line));
    }
}

} // namespace

std::vector<PlateSpot> read_plate(std::istream &in, const std::string &file,
                                  std::vector<std::string> *notes) {
    TableReader table(in, file,
                      {{"lane", true},
                       {"label", true},
                       {"spot", true},
                       {"distance_mm", true},
                       {"front_mm", true},
                       {"role", false},
                       {"area", false}});
    if (notes != nullptr) {
        add_unused_columns(table, *notes);
    }
    std::vector<PlateSpot> spots;
    std::set<std::pair<std::string, std::string>> seen;
    std::map<std::pair<std::string, RowRole>, std::size_t> lanes; ///< first spot of each
    while (table.next()) {
        PlateSpot spot = read_spot(table);
        if (!seen.emplace(spot.lane, spot.spot).second) {
            throw InputError(table.where("spot"),
                             "spot " + in_quotes(spot.spot) + " of lane " + in_quotes(spot.lane) +
                                 " again",
                             "each spot of a lane once");
        }
        const auto [first, is_first] = lanes.try_emplace({spot.lane, spot.role}, spots.size());
        if (!is_first) {
            check_lane(table, spot, spots[first->second]);
        }
        spots.push_back(std::move(spot));
    }
    if (spots.empty()) {
        throw InputError({file, table.line(), ""}, "a header without rows", "one row a spot");
    }
    return spots;
}

} // namespace cospot

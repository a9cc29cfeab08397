#include "readers/cells_above.h"

#include "shared/line_list.h"
#include "shared/text.h"

#include <fmt/format.h>

namespace cospot {

void CellsAbove::fill(const char *column, std::size_t line) {
    filled_.insert(column);
    filled_lines_.insert(line);
}

void CellsAbove::take(const TableReader &table) {
    const std::string_view plate = table.text("plate");
    const std::string_view lane = table.text("lane");
    const std::string_view label = table.text("label");
    const std::string_view role = table.text("role");
    const bool is_plate_above = plate.empty() && !plate_.empty();
    const bool is_new_plate = !plate.empty() && plate != plate_;
    if (is_plate_above) {
        fill("plate", table.line());
    } else if (is_new_plate) {
        plate_ = plate;
        lane_.clear();
    }
    if (is_plate_above && !lane.empty() && lane != lane_ &&
        lanes_[plate_].contains(std::string(lane))) {
        table.add_fault({table.where("plate"),
                         fmt::format("nothing, and lane {} again", in_quotes(lane)),
                         fmt::format("the name of the plate: an empty cell means the plate above, "
                                     "{}, whose lane {} has ended",
                                     in_quotes(plate_), in_quotes(lane))});
    }
    const bool is_lane_above = lane.empty() && !lane_.empty();
    const bool is_same_lane = !is_new_plate && (is_lane_above || lane == lane_);
    if (is_lane_above) {
        fill("lane", table.line());
    } else {
        lane_ = lane;
    }
    lanes_[plate_].insert(lane_);
    has_role_above_ = false;
    if (label.empty() && is_same_lane && !label_.empty() && (role.empty() || role == role_)) {
        fill("label", table.line());
        has_role_above_ = true;
        return;
    }
    label_ = label;
    role_ = role;
}

std::vector<std::string> CellsAbove::notes() const {
    if (filled_lines_.empty()) {
        return {};
    }
    std::string columns;
    for (const char *column : {"plate", "lane", "label"}) {
        if (filled_.contains(column)) {
            columns += (columns.empty() ? "" : " or ") + std::string(column);
        }
    }
    return {fmt::format("an empty cell of column {} is read as the one above it ({})", columns,
                        line_list(filled_lines_))};
}

} // namespace cospot

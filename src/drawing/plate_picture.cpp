#include "drawing/plate_picture.h"

#include "drawing/svg.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace cospot {

namespace {

constexpr double kPlateHeight = 330.0; ///< from start to front, unless a lane holds many spots
constexpr double kLaneWidth = 58.0;
constexpr double kAxisWidth = 46.0;
constexpr double kRightAxisWidth = 40.0;
constexpr double kAboveFront = 26.0;
constexpr double kBelowStart = 40.0;
constexpr double kMargin = 10.0;
constexpr double kSpotWidth = 17.0; ///< drawn size of a spot, which nobody recorded
constexpr double kSpotHeight = 13.0;
constexpr double kSpotOffset = -10.0; ///< of the spot from the middle of its lane
constexpr double kLabelOffset = 3.0;

/// Where things lie in the picture.
struct PlateLayout {
    std::vector<std::string> lanes;
    std::map<std::string, double> lane_middle;
    std::map<std::string, double> lane_front_mm;
    bool has_ruler = true; ///< distances were measured
    double pixels_per_mm = 1.0;
    double top = 0.0;     ///< of the plate
    double start_y = 0.0; ///< of the start line
    double left = 0.0;    ///< of the plate
    double right = 0.0;
    double bottom = 0.0;

    [[nodiscard]] double y(double distance_mm) const {
        return start_y - distance_mm * pixels_per_mm;
    }
};

PlateLayout layout_of(const std::vector<DrawnSpot> &spots) {
    PlateLayout layout;
    double front_mm = 0.0;
    std::map<std::string, std::size_t> count;
    std::size_t most = 0;
    double widest = 0.0;
    for (const DrawnSpot &spot : spots) {
        if (count[spot.lane]++ == 0) {
            layout.lanes.push_back(spot.lane);
        }
        double &lane_front_mm = layout.lane_front_mm[spot.lane];
        lane_front_mm = std::max(lane_front_mm, spot.front_mm);
        front_mm = std::max(front_mm, spot.front_mm);
        layout.has_ruler &= !spot.is_noted_rf;
        most = std::max(most, count[spot.lane]);
        widest = std::max(widest, label_width(spot.key));
    }
    const double height = std::max(kPlateHeight, kLabelHeight * static_cast<double>(most + 1));
    const double lane_width = std::max(kLaneWidth, 2 * (kLabelOffset + widest) + 4);
    layout.pixels_per_mm = height / front_mm;
    layout.top = kMargin;
    layout.start_y = layout.top + kAboveFront + height;
    layout.bottom = layout.start_y + kBelowStart;
    layout.left = kAxisWidth;
    layout.right = layout.left + lane_width * static_cast<double>(layout.lanes.size());
    for (std::size_t i = 0; i < layout.lanes.size(); ++i) {
        layout.lane_middle[layout.lanes[i]] =
            layout.left + lane_width * (static_cast<double>(i) + 0.5);
    }
    return layout;
}

std::vector<LabelBox> labels_in(const std::vector<DrawnSpot> &spots, const PlateLayout &layout) {
    std::vector<LabelBox> boxes(spots.size());
    for (const std::string &lane : layout.lanes) {
        std::vector<std::size_t> members;
        std::vector<double> wanted;
        for (std::size_t i = 0; i < spots.size(); ++i) {
            if (spots[i].lane == lane) {
                members.push_back(i);
                wanted.push_back(layout.y(spots[i].distance_mm));
            }
        }
        const std::vector<double> middles = spread_apart(
            wanted, kLabelHeight, layout.top + kLabelHeight / 2, layout.start_y + kLabelHeight / 2);
        for (std::size_t i = 0; i < members.size(); ++i) {
            const std::string &key = spots[members[i]].key;
            boxes[members[i]] = {key, layout.lane_middle.at(lane) + kLabelOffset,
                                 middles[i] - kLabelHeight / 2, label_width(key), kLabelHeight};
        }
    }
    return boxes;
}

/// The fronts of all lanes where they are the same: R_F then has an axis of its own.
bool has_one_front(const PlateLayout &layout) {
    const double first_mm = layout.lane_front_mm.begin()->second;
    return std::all_of(layout.lane_front_mm.begin(), layout.lane_front_mm.end(),
                       [&](const auto &lane) { return std::abs(lane.second - first_mm) < 0.05; });
}

std::string axes(const PlateLayout &layout) {
    std::string svg;
    double front_mm = 0.0;
    for (const auto &[lane, lane_front_mm] : layout.lane_front_mm) {
        front_mm = std::max(front_mm, lane_front_mm);
    }
    const double step_mm = front_mm > 120 ? 20 : 10;
    for (int i = 0; layout.has_ruler && i * step_mm <= front_mm; ++i) {
        const double y = layout.y(i * step_mm);
        svg += svg::line(layout.left - 5, y, layout.left, y, "axis");
        svg += svg::text(layout.left - 9, y + 4, "end", fmt::format("{:g}", i * step_mm), "tick");
    }
    svg += layout.has_ruler ? svg::text(4, layout.top + 9, "start", "mm", "tick") : "";
    if (!has_one_front(layout)) {
        return svg + '\n';
    }
    for (int i = 0; i <= 5; ++i) {
        const double y = layout.y(front_mm * i / 5.0);
        svg += svg::line(layout.right, y, layout.right + 5, y, "axis");
        svg += svg::text(layout.right + 9, y + 4, "start", fmt::format("{:.1f}", i / 5.0), "tick");
    }
    return svg + svg::text(layout.right + 9, layout.top + 9, "start", "Rf", "tick") + '\n';
}

std::string lane_svg(const PlateLayout &layout, const std::string &lane, double lane_width) {
    const double middle = layout.lane_middle.at(lane);
    const double front = layout.y(layout.lane_front_mm.at(lane));
    std::string svg =
        svg::line(middle - lane_width / 2, front, middle + lane_width / 2, front, "front");
    svg += svg::line(middle + kSpotOffset, layout.start_y - 4, middle + kSpotOffset,
                     layout.start_y + 4, "origin");
    const auto columns = static_cast<std::size_t>(lane_width / 8.0);
    return svg +
           svg::text(middle + kSpotOffset, layout.start_y + 22, "middle",
                     fitted(printable(lane), columns), "lane") +
           '\n';
}

const char *style_of(SpotKind kind) {
    switch (kind) {
    case SpotKind::listed:
        return "spot listed";
    case SpotKind::unlisted:
        return "spot unlisted";
    case SpotKind::standard:
        return "spot standard";
    case SpotKind::not_compared:
        break;
    }
    return "spot";
}

std::string spot_svg(const DrawnSpot &spot, const LabelBox &label, const PlateLayout &layout) {
    const double x = layout.lane_middle.at(spot.lane) + kSpotOffset;
    const double y = layout.y(spot.distance_mm);
    std::string svg = svg::begin_mark(spot.key, spot.title, style_of(spot.kind));
    svg += fmt::format(R"(<ellipse cx="{}" cy="{}" rx="{}" ry="{}"/>)", svg::number(x),
                       svg::number(y), kSpotWidth / 2, kSpotHeight / 2);
    const double middle = label.y + label.height / 2;
    if (std::abs(middle - y) > 3) {
        svg += svg::line(x + kSpotWidth / 2, y, label.x - 1, middle, "leader");
    }
    return svg + svg::text(label.x, label.y + label.height - 3, "start", spot.key, "label") +
           std::string(svg::kEndMark) + '\n';
}

std::string description(const std::vector<DrawnSpot> &spots, const PlateLayout &layout) {
    return fmt::format("{} spots in {} lanes, drawn to scale from the start line to the solvent "
                       "front; the table below the picture says the same in words.",
                       spots.size(), layout.lanes.size());
}

} // namespace

std::vector<LabelBox> spot_labels(const std::vector<DrawnSpot> &spots) {
    return labels_in(spots, layout_of(spots));
}

std::string plate_picture(const std::vector<DrawnSpot> &spots, const std::string &title) {
    const PlateLayout layout = layout_of(spots);
    const std::vector<LabelBox> labels = labels_in(spots, layout);
    const double lane_width =
        (layout.right - layout.left) / static_cast<double>(layout.lanes.size());
    std::string svg = svg::begin(layout.right + kRightAxisWidth, layout.bottom + kMargin, "plate",
                                 title, description(spots, layout));
    svg += svg::rectangle(layout.left, layout.top, layout.right - layout.left,
                          layout.bottom - layout.top, "layer");
    svg += axes(layout);
    svg += svg::line(layout.left, layout.start_y, layout.right, layout.start_y, "start");
    for (const std::string &lane : layout.lanes) {
        svg += lane_svg(layout, lane, lane_width);
    }
    for (std::size_t i = 0; i < spots.size(); ++i) {
        svg += spot_svg(spots[i], labels[i], layout);
    }
    return svg.append(svg::kEnd);
}

} // namespace cospot

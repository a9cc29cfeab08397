#include "plate_photo/plate_notes.h"

#include "plate_photo/plate_lines.h"
#include "shared/robust.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace cospot::plate_photo {

namespace {

constexpr double kCrooked = 0.01; ///< of the run
constexpr double kUneven = 0.25;  ///< of the usual distance between lanes

std::string_view name_of(Light light) {
    switch (light) {
    case Light::white:
        return "white light";
    case Light::uv254:
        return "ultraviolet light of 254 nm";
    case Light::uv366:
        return "ultraviolet light of 366 nm";
    }
    return "";
}

bool are_uneven(const std::vector<FoundLane> &lanes) {
    std::vector<double> distances;
    for (std::size_t i = 1; i < lanes.size(); ++i) {
        distances.push_back(lanes[i].x_mm - lanes[i - 1].x_mm);
    }
    if (distances.size() < 2) {
        return false;
    }
    const double usual = upper_median(distances);
    return std::any_of(distances.begin(), distances.end(), [&](double distance) {
        return std::abs(distance - usual) > kUneven * usual;
    });
}

void note_lines(const FoundPlate &plate, PlateSize size, std::vector<std::string> &notes) {
    if (!plate.start) {
        notes.emplace_back(
            "the start line is not seen: --start-mm says how far it is above the lower edge");
    }
    if (!plate.front) {
        notes.emplace_back(
            "the solvent front is not seen: --front-mm says how far above the lower edge it ran");
    }
    if (plate.start && plate.front &&
        (is_crooked_at(plate, 0.0, size) || is_crooked_at(plate, size.width_mm, size))) {
        notes.push_back(fmt::format("the solvent front is crooked: {:.1f} mm at the left edge, "
                                    "{:.1f} mm in the middle, {:.1f} mm at the right edge",
                                    plate.front->left_mm, plate.front->middle_mm,
                                    plate.front->right_mm));
    }
}

void note_lanes(const std::vector<FoundLane> &lanes, std::vector<std::string> &notes) {
    if (lanes.empty()) {
        notes.emplace_back("no spots are seen: --lanes says where the lanes are");
    }
    if (are_uneven(lanes)) {
        notes.emplace_back("the lanes are unevenly spaced: look whether one is missing, or give "
                           "them with --lanes");
    }
    for (std::size_t i = 0; i < lanes.size(); ++i) {
        if (lanes[i].spots.empty()) {
            notes.push_back(fmt::format("lane {} has no spot", i + 1));
        }
        for (const FoundSpot &spot : lanes[i].spots) {
            if (spot.at_edge) {
                notes.push_back(fmt::format("the spot at {:.1f} mm in lane {} reaches the edge of "
                                            "the plate",
                                            spot.y_mm, i + 1));
            }
        }
    }
}

} // namespace

std::vector<std::string> plate_notes(const FoundPlate &plate, PlateSize size,
                                     bool light_was_given) {
    std::vector<std::string> notes;
    if (!light_was_given) {
        notes.push_back(
            fmt::format("the photo looks as if taken in {} (--light says if it was not)",
                        name_of(plate.light)));
    }
    note_lines(plate, size, notes);
    note_lanes(plate.lanes, notes);
    return notes;
}

bool is_crooked_at(const FoundPlate &plate, double x_mm, PlateSize size) {
    if (!plate.start || !plate.front) {
        return false;
    }
    const double run = plate.front->middle_mm - plate.start->middle_mm;
    const double off = height_at(*plate.front, x_mm, size.width_mm) - plate.front->middle_mm;
    return std::abs(off) > kCrooked * run;
}

} // namespace cospot::plate_photo

#include "photo/photo_json.h"

#include "photo/photo_words.h"

#include <fmt/format.h>

#include <utility>

namespace cospot {

namespace {

Json json_of(const PhotographedSpot &spot, const PhotoSettings &settings) {
    const NamedLane *named = name_of_lane(settings, spot.lane);
    Json json{{"lane", fmt::to_string(spot.lane)},
              {"spot", fmt::to_string(spot.spot)},
              {"label", named == nullptr ? "" : named->name},
              {"role", named != nullptr && named->is_standard ? "standard" : "sample"},
              {"Rf", nullptr},
              {"uncertainty", nullptr},
              {"distance_mm", spot.distance_mm},
              {"front_mm", nullptr},
              {"intensity", spot.found.intensity},
              {"contrast", spot.found.contrast},
              {"x_mm", spot.found.x_mm},
              {"y_mm", spot.found.y_mm},
              {"low_mm", spot.found.low_mm},
              {"high_mm", spot.found.high_mm},
              {"width_mm", spot.found.width_mm},
              {"flags", flags_of(spot)}};
    if (spot.rf) {
        json["Rf"] = spot.rf->value;
        json["uncertainty"] = spot.rf->standard_uncertainty;
    }
    set_where_known(json, "front_mm", spot.front_mm);
    if (spot.uv254) {
        json["uv254"] = *spot.uv254;
    }
    if (spot.stained) {
        json["stained"] = *spot.stained;
    }
    return json;
}

Json json_of(const std::optional<plate_photo::PlateLine> &line) {
    if (!line) {
        return nullptr;
    }
    return {{"left_mm", line->left_mm},
            {"middle_mm", line->middle_mm},
            {"right_mm", line->right_mm},
            {"uncertainty_mm", line->uncertainty_mm},
            {"is_given", line->given}};
}

Json json_of(const PhotoOfPlate &photo) {
    Json corners = Json::array();
    for (const plate_photo::Place &corner : photo.outline.corners) {
        corners.push_back({corner.x, corner.y});
    }
    Json lanes = Json::array();
    for (const plate_photo::FoundLane &lane : photo.found.lanes) {
        lanes.push_back(lane.x_mm);
    }
    return {{"file", photo.file},
            {"width", photo.picture.image.width},
            {"height", photo.picture.image.height},
            {"light", words_for(photo.found.light)},
            {"corners", std::move(corners)},
            {"are_corners_given", photo.are_corners_given},
            {"plate_width_mm", photo.flat.size.width_mm},
            {"plate_height_mm", photo.flat.size.height_mm},
            {"is_size_assumed", photo.flat.size_assumed},
            {"start", json_of(photo.found.start)},
            {"front", json_of(photo.found.front)},
            {"lanes_mm", std::move(lanes)}};
}

} // namespace

std::vector<Json> photo_json(const PhotographedPlate &plate, const PhotoSettings &settings) {
    std::vector<Json> objects;
    for (const PhotographedSpot &spot : plate.spots) {
        objects.push_back(json_of(spot, settings));
    }
    Json whole = json_of(plate.first);
    if (plate.second) {
        whole["second_photo"] = json_of(*plate.second);
    }
    whole["notes"] = plate.notes;
    objects.push_back(std::move(whole));
    return objects;
}

} // namespace cospot

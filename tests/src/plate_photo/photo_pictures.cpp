#include "photo_pictures.h"

#include <nlohmann/json.hpp>
#include <png.h>

#include <fstream>
#include <stdexcept>

namespace cospot::rendering {
namespace {

using plate_photo::Light;
using Json = nlohmann::ordered_json;

Json truth_said(const RenderedPlate &plate) {
    const Chromatogram &truth = plate.truth;
    const auto line = [](const TrueLine &one) {
        return Json{{"left_mm", one.line.left_mm},
                    {"middle_mm", one.line.middle_mm},
                    {"right_mm", one.line.right_mm},
                    {"visible", one.visible}};
    };
    Json said{{"width_mm", truth.size.width_mm},
              {"height_mm", truth.size.height_mm},
              {"light", truth.light == Light::white   ? "white"
                        : truth.light == Light::uv254 ? "254 nm"
                                                      : "366 nm"},
              {"tilt_degrees", plate.tilt_degrees},
              {"pixels_per_mm", plate.pixels_per_mm},
              {"start", line(truth.start)},
              {"front", line(truth.front)},
              {"lanes_mm", truth.lanes_mm}};
    for (const auto &corner : plate.corners) {
        said["corners"].push_back({corner.x, corner.y});
    }
    for (const TrueSpot &spot : truth.spots) {
        said["spots"].push_back({{"lane", spot.lane + 1},
                                 {"x_mm", spot.shape.x_mm},
                                 {"y_mm", spot.shape.y_mm},
                                 {"rf", spot.rf},
                                 {"contrast", spot.contrast},
                                 {"visibility", spot.visibility},
                                 {"overlapping", spot.overlapping},
                                 {"separable", spot.separable}});
    }
    return said;
}

} // namespace

void write_picture(const RenderedPlate &plate, const std::string &name) {
    std::ofstream(name + ".json") << truth_said(plate).dump(2) << '\n';
    png_image png{};
    png.version = PNG_IMAGE_VERSION;
    png.width = static_cast<png_uint_32>(plate.image.width);
    png.height = static_cast<png_uint_32>(plate.image.height);
    png.format = PNG_FORMAT_RGB;
    if (png_image_write_to_file(&png, (name + ".png").c_str(), 0, plate.image.rgb.data(), 0,
                                nullptr) == 0) {
        throw std::runtime_error(name + ".png: " + png.message);
    }
}

} // namespace cospot::rendering

#pragma once

#include "images/image.h"
#include "plate_photo/plate_geometry.h"

#include <cstdint>

namespace cospot::plate_photo {

/// What an invented photo of a plate shows. All is drawn by the formulas of plate_scene.cpp; only
/// the position of the plate is known truth, what is on it is decoration.
struct PlateScene {
    enum class Ground { dark_bench, white_paper, wood, cloth, glove, tiles, paper_on_bench };
    enum class Layer { white, brown, yellow, green_glow, violet_glow };
    int width = 900;
    int height = 675;
    Ground ground = Ground::dark_bench;
    Layer layer = Layer::white;
    PlateSize size{50.0, 100.0};
    double fill = 0.7;         ///< of the photo by the plate, whichever of the sides fills more
    double tilt = 0.0;         ///< degrees, away from the camera above
    double yaw = 0.0;          ///< degrees, away from the camera to the right
    double turn = 0.0;         ///< degrees, in the picture
    double focal_length = 1.2; ///< in halves of the diagonal
    double radial = 0.0;       ///< of the lens
    double noise = 2.0;        ///< standard deviation of a pixel, of 255
    bool shadow = false;       ///< a hard one across the plate and beside it
    bool finger = false;       ///< over part of the right edge
    bool ruler = false;        ///< along the left edge
    bool chipped = false;      ///< the lower right corner is broken off
    std::uint32_t seed = 1;
};

struct PlatePhoto {
    images::Image image;
    Outline outline;
};

[[nodiscard]] PlatePhoto photo_of(const PlateScene &scene);

/// All of it drawn by lot.
[[nodiscard]] PlateScene random_scene(std::uint32_t seed);

/// The same surroundings without a plate.
[[nodiscard]] images::Image photo_without_plate(const PlateScene &scene);

} // namespace cospot::plate_photo

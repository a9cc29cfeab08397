#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// A spot to be ringed in the photo of a plate. Places in mm from the plate's left and lower edges.
struct RingedSpot {
    std::string key;   ///< short label
    std::string title; ///< what it is, in words
    double x_mm = 0.0;
    double y_mm = 0.0;
    double low_mm = 0.0;
    double high_mm = 0.0;
    double width_mm = 0.0;
};

/// What is drawn over the photo of a plate.
struct PlateOverlay {
    double width_mm = 0.0;
    double height_mm = 0.0;
    /// Heights of a line above the lower edge, in even steps from the left edge to the right one:
    /// two or more, or none where there is no line.
    std::vector<double> start_mm{};
    std::vector<double> front_mm{};
    std::vector<double> lanes_mm{}; ///< middles from the left edge
    std::vector<RingedSpot> spots{};
};

/// A straightened plate from its photo (`jpeg`: the file's bytes) with what was found on it, and
/// scales in mm from the left and lower edges, as --start-mm, --front-mm, --lanes and --spots
/// count.
[[nodiscard]] std::string plate_photo_picture(std::string_view jpeg, const PlateOverlay &overlay,
                                              const std::string &title);

/// A place in a photo, in its pixels.
struct PhotoPlace {
    double x = 0.0;
    double y = 0.0;
};

/// A photo as it was taken, with the outline of the plate. `width` and `height` are those of the
/// pixels that `corners` count; the file may have fewer.
[[nodiscard]] std::string outlined_photo(std::string_view jpeg, double width, double height,
                                         const std::vector<PhotoPlace> &corners,
                                         const std::string &title);

} // namespace cospot

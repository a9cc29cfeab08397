#pragma once

#include "images/picture.h"
#include "integration/photo_settings.h"
#include "quantities/uncertain.h"

#include <cstddef>
#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// A photo and what was found on the plate that it shows.
struct PhotoOfPlate {
    std::string file;
    images::Picture picture;
    plate_photo::Outline outline;
    bool are_corners_given = false;
    plate_photo::FlatPlate flat;
    plate_photo::FoundPlate found;
};

/// A spot of the plate, in whichever photo it shows.
struct PhotographedSpot {
    std::size_t lane = 0; ///< from 1
    std::size_t spot = 0; ///< from 1, from the start upwards
    plate_photo::FoundSpot found;
    double distance_mm = 0.0;                ///< from the start; 0 where no start is known
    std::optional<double> front_mm;          ///< from the start
    std::optional<quantities::Uncertain> rf; ///< none without start and front
    std::optional<bool> uv254;               ///< dark at 254 nm; none where no photo was taken so
    std::optional<bool> stained;             ///< none where no photo shows a stained plate
};

/// A plate in one photo, or in two that are laid over each other.
struct PhotographedPlate {
    PhotoOfPlate first;
    std::optional<PhotoOfPlate> second;
    std::vector<PhotographedSpot> spots; ///< lane by lane
    std::vector<std::string> notes;      ///< how it was read, and where to look
};

/// Whether the stream holds a picture, of a kind that is read or refused by name; it is left at its
/// beginning.
[[nodiscard]] bool holds_photo(std::istream &in);

/// Reads a photo, and the second one of the settings, and finds the spots. Throws InputError where
/// a picture cannot be read, where corners are not found (they are asked for, never guessed), and
/// where the settings do not fit the plate.
[[nodiscard]] PhotographedPlate read_photo(std::istream &in, const std::string &file,
                                           const PhotoSettings &settings);

/// What is on a lane; none where the user did not say.
[[nodiscard]] const NamedLane *name_of_lane(const PhotoSettings &settings, std::size_t lane);

} // namespace cospot

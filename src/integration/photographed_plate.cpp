#include "integration/photographed_plate.h"

#include "images/picture_file.h"
#include "images/picture_kind.h"
#include "plate_photo/corner_finder.h"
#include "plate_photo/flattening.h"
#include "plate_photo/plate_lines.h"
#include "plate_photo/spot_finder.h"
#include "plate_photo/two_lights.h"
#include "quantities/plate.h"
#include "readers/input_file.h"
#include "shared/error.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <istream>
#include <iterator>
#include <sstream>
#include <utility>

namespace cospot {

namespace {

using plate_photo::FoundPlate;
using plate_photo::FoundSpot;
using plate_photo::Light;

plate_photo::Outline outline_of(const images::Image &image, const std::string &file,
                                const std::optional<plate_photo::Corners> &corners,
                                const char *option) {
    if (corners) {
        return {.corners = *corners, .lens = {}, .uncertainty_px = 0.0};
    }
    if (const auto found = plate_photo::find_corners(image)) {
        return *found;
    }
    throw InputError(
        {file, 0, ""}, "no plate whose four corners are certain",
        fmt::format("{} \"X,Y X,Y X,Y X,Y\": upper left, upper right, lower right and lower left "
                    "corner in pixels (the picture is {} x {}); or a photo from 25 cm or more, the "
                    "whole plate on an even ground that differs from it",
                    option, image.width, image.height));
}

PhotoOfPlate photo_of_plate(std::string_view bytes, const std::string &file,
                            const PhotoSettings &settings,
                            const std::optional<plate_photo::Corners> &corners,
                            const char *option) {
    PhotoOfPlate photo;
    photo.file = file;
    photo.picture = images::read_picture(bytes, file);
    photo.are_corners_given = corners.has_value();
    photo.outline = outline_of(photo.picture.image, file, corners, option);
    photo.flat = plate_photo::flatten(photo.picture.image, photo.outline, settings.plate);
    photo.found = plate_photo::find_spots(photo.flat, settings.finder);
    return photo;
}

/// Where a spot lies between start and front, both taken at its own place across the plate.
void measure(PhotographedSpot &spot, const PhotoOfPlate &photo) {
    const FoundPlate &found = photo.found;
    if (!found.start) {
        return;
    }
    const double width = photo.flat.size.width_mm;
    const double start = plate_photo::height_at(*found.start, spot.found.x_mm, width);
    spot.distance_mm = spot.found.y_mm - start;
    if (!found.front) {
        return;
    }
    const double front = plate_photo::height_at(*found.front, spot.found.x_mm, width) - start;
    const double rf = std::clamp(spot.distance_mm / front, 0.0, 1.0);
    spot.front_mm = front;
    // To first order (JCGM 100:2008, 5.1.2), of the three heights that R_F is made of.
    const double u = std::hypot(spot.found.uncertainty_mm, (1.0 - rf) * found.start->uncertainty_mm,
                                rf * found.front->uncertainty_mm) /
                     front;
    spot.rf = quantities::Uncertain{rf, u};
}

/// What the photo that shows a spot, or does not, says beside its place.
void note_seen(PhotographedSpot &spot, const PhotoOfPlate &photo, bool is_seen,
               const std::string &stain) {
    if (photo.found.light == Light::uv254) {
        spot.uv254 = is_seen;
    } else if (photo.found.light == Light::white && !stain.empty()) {
        spot.stained = is_seen;
    }
}

void number_spots(std::vector<PhotographedSpot> &spots) {
    std::stable_sort(spots.begin(), spots.end(), [](const auto &a, const auto &b) {
        return std::pair(a.lane, a.found.y_mm) < std::pair(b.lane, b.found.y_mm);
    });
    std::size_t lane = 0;
    std::size_t number = 0;
    for (PhotographedSpot &spot : spots) {
        number = spot.lane == lane ? number + 1 : 1;
        lane = spot.lane;
        spot.spot = number;
    }
}

std::vector<PhotographedSpot> spots_of(const PhotoOfPlate &photo, const PhotoSettings &settings) {
    std::vector<PhotographedSpot> spots;
    for (std::size_t lane = 0; lane < photo.found.lanes.size(); ++lane) {
        for (const FoundSpot &found : photo.found.lanes[lane].spots) {
            PhotographedSpot spot;
            spot.lane = lane + 1;
            spot.found = found;
            measure(spot, photo);
            note_seen(spot, photo, true, settings.stain);
            spots.push_back(std::move(spot));
        }
    }
    return spots;
}

/// One plate has one start and one front, whichever photo shows them.
void share_lines(FoundPlate &first, FoundPlate &second) {
    for (const auto line : {&FoundPlate::start, &FoundPlate::front}) {
        if (!(first.*line)) {
            first.*line = second.*line;
        }
        second.*line = first.*line;
    }
}

/// The same lanes in both photos, also those that one of them does not show.
void share_lanes(PhotoOfPlate &first, PhotoOfPlate &second, const PhotoSettings &settings) {
    plate_photo::PlateSettings finder = settings.finder;
    finder.lanes_mm = plate_photo::lanes_of_both(first.found, second.found);
    if (!finder.lanes_mm.empty()) {
        first.found = plate_photo::find_spots(first.flat, finder);
        second.found = plate_photo::find_spots(second.flat, finder);
    }
}

std::vector<PhotographedSpot> spots_of_both(PhotographedPlate &plate,
                                            const PhotoSettings &settings) {
    PhotoOfPlate &first = plate.first;
    PhotoOfPlate &second = *plate.second;
    share_lanes(first, second, settings);
    share_lines(first.found, second.found);
    std::vector<PhotographedSpot> spots;
    for (const auto &both : plate_photo::laid_over(first.found, second.found)) {
        const PhotoOfPlate &shown = both.first ? first : second;
        PhotographedSpot spot;
        spot.lane = both.lane + 1;
        spot.found = shown.found.lanes[both.lane].spots[both.first ? *both.first : *both.second];
        measure(spot, shown);
        note_seen(spot, first, both.first.has_value(), settings.stain);
        note_seen(spot, second, both.second.has_value(), settings.stain);
        spots.push_back(std::move(spot));
    }
    return spots;
}

void check_settings(const PhotoSettings &settings, const PhotographedPlate &plate) {
    const std::size_t lanes = plate.first.found.lanes.size();
    for (const NamedLane &named : settings.names) {
        if (named.lane > lanes) {
            throw InputError(
                {plate.first.file, 0, ""},
                fmt::format("{}, and a name for lane {}", counted(lanes, "lane"), named.lane),
                "a lane that is there, or --lanes MM,MM,... where each lies");
        }
    }
}

void add_notes(PhotographedPlate &plate) {
    const auto add = [&](const PhotoOfPlate &photo) {
        const bool is_one_of_two = plate.second.has_value();
        for (const auto *notes : {&photo.picture.notes, &photo.found.notes}) {
            for (const std::string &note : *notes) {
                plate.notes.push_back(is_one_of_two ? photo.file + ": " + note : note);
            }
        }
    };
    add(plate.first);
    if (plate.second) {
        add(*plate.second);
    }
    if (plate.first.flat.size_assumed) {
        plate.notes.emplace_back("the plate counts as 100 mm high, since --plate-mm WIDTHxHEIGHT "
                                 "does not say its size; R_F does not depend on it");
    }
}

} // namespace

bool holds_photo(std::istream &in) {
    return images::is_picture(first_bytes(in, images::kFirstPictureBytes));
}

const NamedLane *name_of_lane(const PhotoSettings &settings, std::size_t lane) {
    const auto named = std::find_if(settings.names.begin(), settings.names.end(),
                                    [&](const NamedLane &one) { return one.lane == lane; });
    return named == settings.names.end() ? nullptr : &*named;
}

PhotographedPlate read_photo(std::istream &in, const std::string &file,
                             const PhotoSettings &settings) {
    const std::string bytes{std::istreambuf_iterator<char>(in), {}};
    PhotographedPlate plate;
    plate.first = photo_of_plate(bytes, file, settings, settings.corners, "--corners");
    if (settings.second) {
        std::istringstream no_standard_input;
        InputFile second(*settings.second, no_standard_input);
        plate.second = photo_of_plate(second.read_all(), second.name(), settings,
                                      settings.second_corners, "--second-corners");
    }
    plate.spots = plate.second ? spots_of_both(plate, settings) : spots_of(plate.first, settings);
    number_spots(plate.spots);
    check_settings(settings, plate);
    add_notes(plate);
    return plate;
}

} // namespace cospot

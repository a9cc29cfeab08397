#include "plate_photo/given_places.h"

#include "shared/error.h"
#include "shared/number.h"

#include <fmt/format.h>

#include <cmath>
#include <string>

namespace cospot::plate_photo {

namespace {

[[noreturn]] void refuse(const std::string &option, std::string found, std::string expected) {
    throw InputError({.file = "command line, " + option, .line = 0, .column = {}}, std::move(found),
                     std::move(expected));
}

void require_between(const std::string &option, double found_mm, double most_mm) {
    if (!(found_mm > 0.0 && found_mm < most_mm)) {
        refuse(option, fmt::format("{} mm", exact_text(found_mm)),
               fmt::format("a place on the plate, above 0 and below {} mm", exact_text(most_mm)));
    }
}

} // namespace

void require_on_plate(const PlateSettings &settings, PlateSize size) {
    if (settings.start_mm) {
        require_between("--start-mm", *settings.start_mm, size.height_mm);
    }
    if (settings.front_mm) {
        require_between("--front-mm", *settings.front_mm, size.height_mm);
    }
    if (settings.start_mm && settings.front_mm && *settings.start_mm >= *settings.front_mm) {
        refuse("--front-mm", fmt::format("{} mm", exact_text(*settings.front_mm)),
               fmt::format("a front above the start at {} mm", exact_text(*settings.start_mm)));
    }
    for (const double lane : settings.lanes_mm) {
        require_between("--lanes", lane, size.width_mm);
    }
    for (const PlateSettings::GivenSpots &given : settings.spots) {
        if (given.lane == 0) {
            refuse("--spots", "lane 0", "lanes that count from 1");
        }
        for (const double y : given.y_mm) {
            require_between("--spots", y, size.height_mm);
        }
    }
}

} // namespace cospot::plate_photo

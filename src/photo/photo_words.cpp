#include "photo/photo_words.h"

#include <fmt/format.h>

namespace cospot {

std::string words_for(plate_photo::Light light) {
    switch (light) {
    case plate_photo::Light::uv254:
        return "254 nm";
    case plate_photo::Light::uv366:
        return "366 nm";
    case plate_photo::Light::white:
        break;
    }
    return "white light";
}

std::vector<std::string> flags_of(const PhotographedSpot &spot) {
    std::vector<std::string> flags;
    const auto add = [&](bool is, const char *what) {
        if (is) {
            flags.emplace_back(what);
        }
    };
    add(spot.found.tailing, "tailing");
    add(spot.found.overlapping, "overlapping");
    add(spot.found.at_edge, "at the edge");
    add(spot.found.crooked_front, "crooked front");
    // As near as its own half extent: R_F is censored there.
    const double half_mm = (spot.found.high_mm - spot.found.low_mm) / 2;
    add(spot.rf && spot.distance_mm < half_mm, "at the start");
    add(spot.front_mm && spot.distance_mm > *spot.front_mm - half_mm, "at the front");
    add(spot.found.given, "given");
    return flags;
}

std::string key_of(const PhotographedSpot &spot) {
    return fmt::format("{}.{}", spot.lane, spot.spot);
}

} // namespace cospot

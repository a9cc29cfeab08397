#include "options/photo_options.h"

#include "quantities/stains.h"
#include "shared/number.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

namespace {

namespace po = boost::program_options;
using plate_photo::Corners;
using plate_photo::Light;
using Texts = std::vector<std::string>;

constexpr double kLargestPlate_mm = 1000.0;
constexpr double kMostLanes = 100.0;

/// The parts of a text between signs of that kind; empty ones are left out.
std::vector<std::string> parts_of(const std::string &text, std::string_view signs) {
    std::vector<std::string> parts;
    std::size_t at = text.find_first_not_of(signs);
    while (at != std::string::npos) {
        const std::size_t end = std::min(text.find_first_of(signs, at), text.size());
        parts.push_back(text.substr(at, end - at));
        at = text.find_first_not_of(signs, end);
    }
    return parts;
}

/// A place on the plate in mm.
double height_of(const std::string &text, const char *option, const std::string &expected) {
    const auto value = number_from_text(text);
    if (!value || !(*value >= 0.0) || *value > kLargestPlate_mm) {
        throw bad_option(option, in_quotes(text), expected);
    }
    return *value;
}

std::vector<double> heights_of(const std::string &text, const char *option,
                               const std::string &expected) {
    std::vector<double> heights;
    for (const std::string &part : parts_of(text, ", ")) {
        heights.push_back(height_of(part, option, expected));
    }
    return heights;
}

std::size_t lane_number(const std::string &text, const char *option, const std::string &expected) {
    const auto number = number_from_text(text);
    if (!number || *number < 1.0 || *number > kMostLanes || *number != std::floor(*number)) {
        throw bad_option(option, in_quotes(text), expected);
    }
    return static_cast<std::size_t>(*number);
}

std::optional<Corners> corners_of(const CommandOptions &options, const char *option) {
    const auto text = options.text(option);
    if (!text) {
        return std::nullopt;
    }
    const char *expected = "four places in pixels, X,Y X,Y X,Y X,Y: the upper left, upper right, "
                           "lower right and lower left corner";
    std::vector<double> numbers;
    for (const std::string &part : parts_of(*text, ", ")) {
        const auto number = number_from_text(part);
        if (!number || !std::isfinite(*number)) {
            throw bad_option(option, in_quotes(*text), expected);
        }
        numbers.push_back(*number);
    }
    Corners corners{};
    if (numbers.size() != 2 * corners.size()) {
        throw bad_option(option, in_quotes(*text), expected);
    }
    for (std::size_t i = 0; i < corners.size(); ++i) {
        corners[i] = {numbers[2 * i], numbers[2 * i + 1]};
    }
    return corners;
}

std::optional<plate_photo::PlateSize> plate_size_of(const CommandOptions &options) {
    constexpr double smallest = 10.0;
    const auto text = options.text("plate-mm");
    if (!text) {
        return std::nullopt;
    }
    const std::string expected = "WIDTHxHEIGHT in mm, as in 50x100";
    const std::vector<std::string> parts = parts_of(*text, "xX*");
    if (parts.size() != 2) {
        throw bad_option("plate-mm", in_quotes(*text), expected);
    }
    const plate_photo::PlateSize size{height_of(parts[0], "plate-mm", expected),
                                      height_of(parts[1], "plate-mm", expected)};
    if (size.width_mm < smallest || size.height_mm < smallest) {
        throw bad_option("plate-mm", in_quotes(*text), expected + ", from 10 mm");
    }
    return size;
}

std::optional<Light> light_of(const CommandOptions &options) {
    const auto text = options.text("light");
    if (!text) {
        return std::nullopt;
    }
    if (*text == "white") {
        return Light::white;
    }
    if (*text == "uv254" || *text == "uv366") {
        return *text == "uv254" ? Light::uv254 : Light::uv366;
    }
    throw bad_option("light", in_quotes(*text), "white, uv254 or uv366");
}

/// "2:31.5,48" or, of a lane without spots, "2:".
plate_photo::PlateSettings::GivenSpots given_spots(const std::string &text) {
    const std::string expected =
        "LANE:MM,MM,..., the heights of all its spots above the lower edge, as in 2:31.5,48";
    const std::size_t colon = text.find(':');
    if (colon == std::string::npos) {
        throw bad_option("spots", in_quotes(text), expected);
    }
    return {lane_number(text.substr(0, colon), "spots", expected),
            heights_of(text.substr(colon + 1), "spots", expected)};
}

void add_names(const CommandOptions &options, const char *option, bool is_standard,
               std::vector<NamedLane> &names) {
    for (const std::string &text : options.texts(option)) {
        const std::string expected =
            is_standard ? "LANE=COMPOUND, as in 1=vanillin" : "LANE=SAMPLE, as in 2=\"flask 7\"";
        const std::size_t equals = text.find('=');
        if (equals == std::string::npos || equals + 1 == text.size()) {
            throw bad_option(option, in_quotes(text), expected);
        }
        const std::size_t lane = lane_number(text.substr(0, equals), option, expected);
        if (std::any_of(names.begin(), names.end(),
                        [&](const NamedLane &one) { return one.lane == lane; })) {
            throw bad_option(option, fmt::format("lane {} again", lane), "one name for a lane");
        }
        names.push_back({lane, text.substr(equals + 1), is_standard});
    }
}

} // namespace

void add_photo_options(CommandOptions &options) {
    options.add()(
        "corners", po::value<std::string>(),
        "of the plate in a photo, \"X,Y X,Y X,Y X,Y\" in pixels: upper left, upper right, "
        "lower right, lower left (else found)")("plate-mm", po::value<std::string>(),
                                                "size of a plate in a photo, as in 50x100")(
        "light", po::value<std::string>(),
        "of a photo: white, uv254 or uv366 (else told from the photo)")(
        "start-mm", po::value<double>(),
        "height of the start line above the lower edge of a plate in a photo (else found)")(
        "front-mm", po::value<double>(),
        "height of the solvent front above the lower edge (else found)")(
        "lanes", po::value<std::string>(),
        "MM,MM,...: distances of the lanes of a plate in a photo from its left edge (else found)")(
        "spots", po::value<Texts>()->composing(),
        "LANE:MM,MM,...: heights of all spots of that lane above the lower edge, instead of those "
        "that are found; repeat it")("lane", po::value<Texts>()->composing(),
                                     "LANE=SAMPLE, what is on a lane in a photo; repeat it")(
        "standard", po::value<Texts>()->composing(),
        "LANE=COMPOUND, the standard on a lane in a photo; repeat it")(
        "second-photo", po::value<std::string>(),
        "another photo of the same plate, under another lamp or after a stain")(
        "second-corners", po::value<std::string>(), "of the plate in the second photo")(
        "stain", po::value<std::string>(), "reagent that the plates were treated with");
}

PhotoSettings photo_settings(const CommandOptions &options) {
    PhotoSettings settings;
    settings.corners = corners_of(options, "corners");
    settings.second_corners = corners_of(options, "second-corners");
    settings.plate = plate_size_of(options);
    settings.finder.light = light_of(options);
    settings.finder.start_mm = options.positive("start-mm", kLargestPlate_mm);
    settings.finder.front_mm = options.positive("front-mm", kLargestPlate_mm);
    if (const auto lanes = options.text("lanes")) {
        settings.finder.lanes_mm = heights_of(*lanes, "lanes", "MM,MM,..., as in 8,17,26");
    }
    for (const std::string &text : options.texts("spots")) {
        settings.finder.spots.push_back(given_spots(text));
    }
    add_names(options, "lane", false, settings.names);
    add_names(options, "standard", true, settings.names);
    settings.second = options.text("second-photo");
    if (const auto name = options.text("stain")) {
        settings.stain = stain_named(*name, at_option("stain")).name;
    }
    if (settings.second && settings.finder.light) {
        throw bad_option("light", "two photos", "nothing: each is told from its photo");
    }
    return settings;
}

} // namespace cospot

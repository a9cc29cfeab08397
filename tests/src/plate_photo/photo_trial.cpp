// What is found on drawn photos of plates whose truth is known, as JSON; tools/evaluate calls it.
//   photo_trial [--plates N] [--seed N] [--megapixels X] [--picture DIR]
// Each plate has a difficulty in turn. Its photo has X megapixels, or more where a millimetre would
// have fewer than three pixels. The finder is told the plate's size, and in half of the cases the
// light. Where it sees no start or no front it is asked again with the height in the middle of the
// plate, as a user reads it: with an error of 0.3 mm. `--picture` writes the first plates and their
// truth there instead of judging them.

#include "photo_scores.h"
#include "rendered_plate.h"
#include "rendering/draws.h"

#include "plate_photo/corner_finder.h"
#include "plate_photo/flattening.h"
#include "plate_photo/spot_finder.h"
#include "shared/error.h"

#include <nlohmann/json.hpp>
#include <png.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <numeric>
#include <stdexcept>
#include <string>
#include <thread>

namespace cospot::rendering {
namespace {

using plate_photo::FlatPlate;
using plate_photo::FoundPlate;
using plate_photo::Light;
using plate_photo::Outline;
using plate_photo::PlateSettings;
using Json = nlohmann::ordered_json;

constexpr double kReadingErrorMm = 0.3;
constexpr double kLeastPixelsPerMm = 3.0;
constexpr std::uint64_t kUserStream = 100; ///< of draws, beside those of the pictures

struct TrialCall {
    std::size_t plates = 300;
    std::uint64_t seed = 1;
    double megapixels = 1.5;
    std::string picture_folder;
};

RenderedPlate plate_of(const TrialCall &call, std::size_t index) {
    PlateRecipe recipe;
    recipe.seed = call.seed * 100000 + index;
    recipe.difficulty = static_cast<Difficulty>(index % 3);
    recipe.megapixels = call.megapixels;
    RenderedPlate plate = rendered(recipe);
    if (plate.pixels_per_mm < kLeastPixelsPerMm) {
        recipe.megapixels *= std::pow(kLeastPixelsPerMm / plate.pixels_per_mm, 2) * 1.01;
        plate = rendered(recipe);
    }
    return plate;
}

/// What the finder said about one photo through one set of corners.
struct Answer {
    bool refused = false;
    FoundPlate unaided; ///< nothing was given
    FoundPlate helped;  ///< with the start and the front, where they were not seen
};

/// What is kept of a plate: not its photo.
struct Outcome {
    RenderedPlate plate;
    CornerScore corners;
    Answer through_true;
    std::optional<Answer> through_found;
};

template <typename Edges>
Answer answer_through(const Edges &edges, const RenderedPlate &plate, PlateSettings settings,
                      Draws user) {
    Answer answer;
    const double start = plate.truth.start.line.middle_mm + kReadingErrorMm * user.normal();
    const double front = plate.truth.front.line.middle_mm + kReadingErrorMm * user.normal();
    try {
        const FlatPlate flat = flatten(plate.image, edges, plate.truth.size);
        answer.unaided = find_spots(flat, settings);
        answer.helped = answer.unaided;
        if (!answer.unaided.start || !answer.unaided.front) {
            if (!answer.unaided.start) {
                settings.start_mm = start;
            }
            if (!answer.unaided.front) {
                settings.front_mm = front;
            }
            answer.helped = find_spots(flat, settings);
        }
    } catch (const InputError &) {
        answer.refused = true;
        answer.unaided = answer.helped = FoundPlate{};
    }
    return answer;
}

Outcome tried(const TrialCall &call, std::size_t index) {
    Outcome outcome;
    outcome.plate = plate_of(call, index);
    const RenderedPlate &plate = outcome.plate;
    PlateSettings settings;
    if (index / 3 % 2 == 0) {
        settings.light = plate.truth.light;
    }
    const Draws user(call.seed * 100000 + index, kUserStream);
    const std::optional<Outline> found = plate_photo::find_corners(plate.image);
    outcome.corners = score_corners(found ? std::optional(found->corners) : std::nullopt, plate);
    outcome.through_true = answer_through(plate.corners, plate, settings, user);
    if (found) {
        outcome.through_found = answer_through(*found, plate, settings, user);
    }
    outcome.plate.image = {};
    return outcome;
}

/// In the order of the plates, whichever thread is quicker.
std::vector<Outcome> tried_all(const TrialCall &call) {
    std::vector<Outcome> outcomes(call.plates);
    std::atomic<std::size_t> next = 0;
    const auto work = [&] {
        for (std::size_t k = next++; k < call.plates; k = next++) {
            outcomes[k] = tried(call, k);
        }
    };
    std::thread other(work);
    work();
    other.join();
    return outcomes;
}

Json share(const Share &counted) {
    if (counted.all == 0) {
        return nullptr;
    }
    return static_cast<double>(counted.part) / static_cast<double>(counted.all);
}

double mean_of(const std::vector<double> &values) {
    return values.empty() ? 0.0
                          : std::accumulate(values.begin(), values.end(), 0.0) /
                                static_cast<double>(values.size());
}

double quantile_of(std::vector<double> values, double at) {
    if (values.empty()) {
        return 0.0;
    }
    std::sort(values.begin(), values.end());
    return values[std::min(values.size() - 1,
                           static_cast<std::size_t>(at * static_cast<double>(values.size())))];
}

Json figures(const SpotTally &spots) {
    Json said{{"asked_for", spots.asked.all},
              {"found", share(spots.asked)},
              {"false_share", share(spots.falsely)},
              {"rf_error_mean", mean_of(spots.rf_errors)},
              {"rf_error_95", quantile_of(spots.rf_errors, 0.95)},
              {"covered", share(spots.covered)},
              {"stated_uncertainty_mean", mean_of(spots.uncertainties)},
              {"without_rf", spots.without_rf},
              {"faint", spots.faint.all},
              {"faint_found", share(spots.faint)}};
    for (const auto &[kind, counted] : spots.kind) {
        said["found_by_kind"][kind] = {{"asked_for", counted.all}, {"found", share(counted)}};
    }
    return said;
}

Json figures(const LineTally &line) {
    return {{"visible", line.seen.all},
            {"seen", share(line.seen)},
            {"right", share(line.right)},
            {"invisible", line.false_ones.all},
            {"seen_where_invisible", share(line.false_ones)}};
}

/// All that is counted through one kind of corners.
struct Tally {
    std::size_t plates = 0, refused = 0;
    SpotTally spots;
    LaneTally lanes;
    LineTally start, front;

    void count(const Answer &answer, const Chromatogram &truth) {
        ++plates;
        refused += answer.refused ? 1 : 0;
        count_spots(answer.helped, truth, spots);
        count_lanes(answer.helped, truth, lanes);
        count_line(answer.unaided.start, truth.start, truth.size.height_mm, start);
        count_line(answer.unaided.front, truth.front, truth.size.height_mm, front);
    }
    [[nodiscard]] Json said() const {
        return {{"plates", plates},
                {"refused", refused},
                {"spots", figures(spots)},
                {"lanes_right", share(lanes.lanes)},
                {"plates_with_all_lanes_right", share(lanes.plates)},
                {"start", figures(start)},
                {"front", figures(front)}};
    }
};

Json corner_figures(const std::vector<Outcome> &outcomes) {
    std::size_t asked_for = 0;
    std::size_t wrong = 0;
    std::vector<double> px;
    std::vector<double> mm;
    for (const Outcome &outcome : outcomes) {
        asked_for += outcome.corners.verdict == CornerVerdict::asked_for ? 1 : 0;
        wrong += outcome.corners.verdict == CornerVerdict::wrong ? 1 : 0;
        if (outcome.corners.verdict == CornerVerdict::right) {
            px.push_back(outcome.corners.mean_px);
            mm.push_back(outcome.corners.mean_mm);
        }
    }
    return {{"found", share({px.size(), outcomes.size()})},
            {"asked_for", share({asked_for, outcomes.size()})},
            {"wrong", share({wrong, outcomes.size()})},
            {"right_ones_mean_px", mean_of(px)},
            {"right_ones_mean_mm", mean_of(mm)},
            {"right_ones_95_mm", quantile_of(mm, 0.95)}};
}

/// Of the plates that `belongs` picks.
template <typename Belongs>
Json group_figures(const std::vector<Outcome> &outcomes, Belongs belongs) {
    Tally through_true;
    Tally through_found;
    Tally through_right;
    std::vector<Outcome> group;
    for (const Outcome &outcome : outcomes) {
        if (!belongs(outcome)) {
            continue;
        }
        group.push_back(outcome);
        through_true.count(outcome.through_true, outcome.plate.truth);
        if (outcome.through_found) {
            through_found.count(*outcome.through_found, outcome.plate.truth);
        }
        if (outcome.corners.verdict == CornerVerdict::right) {
            through_right.count(*outcome.through_found, outcome.plate.truth);
        }
    }
    return {{"corners", corner_figures(group)},
            {"through_true_corners", through_true.said()},
            {"through_found_corners", through_found.said()},
            {"through_found_corners_that_are_right", through_right.said()}};
}

Json all_figures(const std::vector<Outcome> &outcomes) {
    Json said;
    said["all"] = group_figures(outcomes, [](const Outcome &) { return true; });
    const std::vector<std::pair<const char *, Light>> lights{
        {"white", Light::white}, {"uv254", Light::uv254}, {"uv366", Light::uv366}};
    for (const auto &[name, light] : lights) {
        said[name] = group_figures(
            outcomes, [wanted = light](const Outcome &o) { return o.plate.truth.light == wanted; });
    }
    const std::vector<const char *> names{"easy", "usual", "hard"};
    for (std::size_t k = 0; k < names.size(); ++k) {
        said[names[k]] = group_figures(outcomes, [&](const Outcome &o) {
            return static_cast<std::size_t>(&o - outcomes.data()) % 3 == k;
        });
    }
    return said;
}

/// Seconds on one core from 12 megapixels to spots, the median of three photos; what is not found
/// of their corners is given.
Json seconds_of_large_photo(std::uint64_t seed) {
    std::vector<double> corners;
    std::vector<double> rest;
    for (const Light light : {Light::white, Light::uv254, Light::uv366}) {
        PlateRecipe recipe{seed * 100000 + 99000, Difficulty::usual, 12.0, light};
        const RenderedPlate plate = rendered(recipe);
        const auto begin = std::chrono::steady_clock::now();
        const std::optional<Outline> found = plate_photo::find_corners(plate.image);
        const auto middle = std::chrono::steady_clock::now();
        const FlatPlate flat = found ? flatten(plate.image, *found, plate.truth.size)
                                     : flatten(plate.image, plate.corners, plate.truth.size);
        (void)find_spots(flat, {});
        const auto end = std::chrono::steady_clock::now();
        corners.push_back(std::chrono::duration<double>(middle - begin).count());
        rest.push_back(std::chrono::duration<double>(end - middle).count());
    }
    return {{"corners", quantile_of(corners, 0.5)},
            {"flat_plate_and_spots", quantile_of(rest, 0.5)}};
}

Json definitions() {
    return {
        {"asked for", "a spot whose contrast is at least 5 % and whose change of light has a "
                      "maximum of its own along the lane; contrast: the largest change in a "
                      "colour channel, in linear light, over the brighter of layer and spot"},
        {"found", "a found place lies within the true spot's half height, at least 1 mm, across "
                  "and along; each counts once, nearest first"},
        {"false", "a found spot with no true one left within twice that distance, and no streak "
                  "there; spots below 5 % are neither asked for nor false"},
        {"R_F", "of the densest place, between start and front at the spot's own x; where one of "
                "them is not seen, its height in the middle is given with an error of 0.3 mm; "
                "errors are those of found spots that are asked for"},
        {"covered", "|dR_F| is at most 1.96 standard uncertainties, propagated from those stated "
                    "of the spot, the start and the front"},
        {"lanes right", "of lanes with a spot that is asked for, and of found lanes that are none: "
                        "a found middle lies within a quarter of the least distance of two lanes, "
                        "1 to 3 mm"},
        {"line right", "mean distance at both edges and in the middle at most 0.5 mm, or 0.7 % of "
                       "the plate's height; of lines that can be seen"},
        {"corners wrong", "one is off by more than 2 % of the plate's diagonal; through found "
                          "corners: all plates with found corners, wrong ones too"}};
}

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
                                 {"overlapping", spot.overlapping},
                                 {"separable", spot.separable}});
    }
    return said;
}

void write_pictures(const TrialCall &call) {
    std::filesystem::create_directories(call.picture_folder);
    for (std::size_t k = 0; k < call.plates; ++k) {
        const RenderedPlate plate = plate_of(call, k);
        const std::string name = call.picture_folder + "/plate_" + std::to_string(k);
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
}

TrialCall read_call(const std::vector<std::string> &words) {
    TrialCall call;
    for (std::size_t k = 0; k + 1 < words.size(); k += 2) {
        const std::string &value = words[k + 1];
        if (words[k] == "--plates") {
            call.plates = std::stoul(value);
        } else if (words[k] == "--seed") {
            call.seed = std::stoull(value);
        } else if (words[k] == "--megapixels") {
            call.megapixels = std::stod(value);
        } else if (words[k] == "--picture") {
            call.picture_folder = value;
        } else {
            throw std::invalid_argument(words[k]);
        }
    }
    if (words.size() % 2 != 0) {
        throw std::invalid_argument(words.back());
    }
    return call;
}

int run(const TrialCall &call) {
    if (!call.picture_folder.empty()) {
        write_pictures(call);
        return 0;
    }
    const std::vector<Outcome> outcomes = tried_all(call);
    Json result{{"definitions", definitions()}, {"plates", call.plates}};
    result["figures"] = all_figures(outcomes);
    result["seconds_12_megapixels"] = seconds_of_large_photo(call.seed);
    std::cout << result.dump(2) << '\n';
    return 0;
}

} // namespace
} // namespace cospot::rendering

int main(int count, char **values) {
    try {
        return cospot::rendering::run(cospot::rendering::read_call({values + 1, values + count}));
    } catch (const std::exception &error) {
        std::cerr << "photo_trial: " << error.what() << '\n';
        return 2;
    }
}

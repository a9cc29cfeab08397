// What is found on drawn photos of plates whose truth is known, as JSON; tools/evaluate calls it.
//   photo_trial [--plates N] [--seed N] [--megapixels X] [--picture DIR]
// Each plate has a difficulty in turn. Its photo has X megapixels, or more where a millimetre would
// have fewer than three pixels. The finder is told the plate's size, and in half of the cases the
// light. Where it sees no start or no front it is asked again with the height in the middle of the
// plate, as a user reads it: with an error of 0.3 mm. `--picture` writes the first plates and their
// truth there instead of judging them.

#include "photo_figures.h"
#include "photo_pictures.h"
#include "photo_scores.h"
#include "rendered_plate.h"
#include "rendering/draws.h"

#include "plate_photo/corner_finder.h"
#include "plate_photo/flattening.h"
#include "plate_photo/spot_finder.h"
#include "shared/error.h"

#include <nlohmann/json.hpp>

#include <atomic>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <iostream>
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
        std::filesystem::create_directories(call.picture_folder);
        for (std::size_t k = 0; k < call.plates; ++k) {
            write_picture(plate_of(call, k), call.picture_folder + "/plate_" + std::to_string(k));
        }
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

#include "plate_photo/channel.h"

#include "shared/robust.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace cospot::plate_photo {

namespace {

constexpr int kSmoothing = 1;        ///< cells
constexpr double kDarkest = -10.0;   ///< below any logarithm of kLeastLight
constexpr float kLeastLight = 0.01F; ///< of the layer's light, that a camera tells from none
/// An indicator glows in one band: the layer's green is so much stronger than red and blue. White
/// layers and stains are not, since they reflect daylight.
constexpr double kGreenOverOthers = 1.4;
/// Of all light that a camera can hold: a layer that does not glow stays below.
constexpr double kDarkLayer = 0.12;
/// Without spots that glow, blue has to be so much stronger than red and green: the lamp's rest.
constexpr double kVioletOverOthers = 1.5;
constexpr double kGlow = 0.5; ///< a change that only light of its own can make on a dark layer
constexpr double kChannelNoiseSideMm = 20.0;
constexpr double kMostNoise = 2.0; ///< of a channel that counts in full, over the quietest
constexpr double kGlowingShare = 0.002;

double typical(const Field &field) {
    return median(std::vector<double>(field.values.begin(), field.values.end()));
}

/// Share of the cells that are far brighter than the layer.
double glowing_share(const LayerLight &layer) {
    std::size_t glowing = 0;
    for (std::size_t i = 0; i < layer.change[0].values.size(); ++i) {
        const bool glows = std::any_of(layer.change.begin(), layer.change.end(),
                                       [i](const Field &c) { return c.values[i] > kGlow; });
        glowing += glows ? 1 : 0;
    }
    return static_cast<double>(glowing) / static_cast<double>(layer.change[0].values.size());
}

/// Changes of light as logarithms of the light over the layer's.
Field as_logarithms(Field change) {
    for (float &value : change.values) {
        value = std::log(std::max(kLeastLight, 1.0F + value));
    }
    return change;
}

/// What a channel's change counts: one that is far noisier than the quietest counts less, so that
/// it does not hide what the others show.
std::array<double, 3> weights_of(const std::array<Field, 3> &changes) {
    std::array<double, 3> noise{};
    for (std::size_t c = 0; c < 3; ++c) {
        noise[c] = std::max(1e-4, deviation_of(changes[c]));
    }
    const double quietest = *std::min_element(noise.begin(), noise.end());
    std::array<double, 3> weights{};
    for (std::size_t c = 0; c < 3; ++c) {
        weights[c] = std::min(1.0, kMostNoise * quietest / noise[c]);
    }
    return weights;
}

/// The largest change of a channel; of brighter ones alone where only these are spots.
SpotSignal largest_change(const LayerLight &layer, bool brighter_alone) {
    std::array<Field, 3> changes;
    for (std::size_t c = 0; c < 3; ++c) {
        changes[c] = as_logarithms(smoothed(layer.change[c], kSmoothing));
    }
    const std::array<double, 3> weights = weights_of(changes);
    SpotSignal result{.signal = changes[0], .colours = {}, .noise = {}};
    for (std::size_t i = 0; i < result.signal.values.size(); ++i) {
        double most = brighter_alone ? kDarkest : 0.0;
        for (std::size_t c = 0; c < 3; ++c) {
            const double change = weights[c] * changes[c].values[i];
            most = std::max(most, brighter_alone ? change : std::abs(change));
        }
        result.signal.values[i] = static_cast<float>(most);
    }
    for (std::size_t c = 0; c < 3; ++c) {
        const Field noise = deviations_in(changes[c], kChannelNoiseSideMm);
        result.noise = c == 0 ? empty_field(noise.width, noise.height, noise.cells_per_mm)
                              : std::move(result.noise);
        for (std::size_t i = 0; i < noise.values.size(); ++i) {
            result.noise.values[i] =
                std::max(result.noise.values[i], static_cast<float>(weights[c]) * noise.values[i]);
        }
        for (float &value : changes[c].values) {
            value *= static_cast<float>(brighter_alone ? weights[c] : -weights[c]);
        }
        result.colours.push_back(std::move(changes[c]));
    }
    return result;
}

} // namespace

Light tell_light(const LayerLight &layer) {
    const double red = typical(layer.background[0]);
    const double green = typical(layer.background[1]);
    const double blue = typical(layer.background[2]);
    if (green > kGreenOverOthers * std::max(red, blue)) {
        return Light::uv254;
    }
    const bool violet = blue > kVioletOverOthers * std::max(red, green);
    if (std::max({red, green, blue}) < kDarkLayer &&
        (violet || glowing_share(layer) > kGlowingShare)) {
        return Light::uv366;
    }
    return Light::white;
}

SpotSignal spot_signal(const LayerLight &layer, Light light) {
    if (light != Light::uv254) {
        return largest_change(layer, light == Light::uv366);
    }
    Field signal = as_logarithms(smoothed(layer.change[1], kSmoothing));
    for (float &value : signal.values) {
        value = -value;
    }
    Field noise = deviations_in(signal, kChannelNoiseSideMm);
    return {.signal = std::move(signal), .colours = {}, .noise = std::move(noise)};
}

} // namespace cospot::plate_photo

#include "plate_photo/channel.h"

#include "shared/robust.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace cospot::plate_photo {

namespace {

constexpr int kSmoothing = 1;        ///< cells
constexpr float kLeastShare = 0.01F; ///< of the layer's light, that a camera tells from none
/// An indicator glows in one band: the layer's green is so much stronger than red and blue. White
/// layers and stains are not, since they reflect daylight.
constexpr double kGreenOverOthers = 1.4;
/// Of all light that a camera can hold: a layer that does not glow stays below.
constexpr double kDarkLayer = 0.12;
/// Without spots that glow, blue has to be so much stronger than red and green: the lamp's rest.
constexpr double kVioletOverOthers = 1.5;
constexpr double kGlow = 0.5; ///< a change that only light of its own can make on a dark layer
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

/// What all channels send more than the layer, in shares of the layer's light.
Field glow(const LayerLight &layer) {
    double all = 0.0;
    std::array<double, 3> share{};
    for (std::size_t c = 0; c < 3; ++c) {
        share[c] = typical(layer.background[c]);
        all += share[c];
    }
    Field signal = layer.change[0];
    for (std::size_t i = 0; i < signal.values.size(); ++i) {
        double sum = 0.0;
        for (std::size_t c = 0; c < 3; ++c) {
            sum += share[c] / all * layer.change[c].values[i];
        }
        signal.values[i] = static_cast<float>(sum);
    }
    return smoothed(signal, kSmoothing);
}

/// Changes of light as logarithms of the light over the layer's.
Field as_logarithms(Field change) {
    for (float &value : change.values) {
        value = std::log(std::max(kLeastShare, 1.0F + value));
    }
    return change;
}

Field largest_change(const LayerLight &layer) {
    Field signal =
        empty_field(layer.change[0].width, layer.change[0].height, layer.change[0].cells_per_mm);
    for (const Field &change : layer.change) {
        const Field smooth = as_logarithms(smoothed(change, kSmoothing));
        for (std::size_t i = 0; i < signal.values.size(); ++i) {
            signal.values[i] = std::max(signal.values[i], std::abs(smooth.values[i]));
        }
    }
    return signal;
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

Field spot_signal(const LayerLight &layer, Light light) {
    if (light == Light::white) {
        return largest_change(layer);
    }
    Field signal =
        as_logarithms(light == Light::uv366 ? glow(layer) : smoothed(layer.change[1], kSmoothing));
    for (float &value : signal.values) {
        value = light == Light::uv366 ? value : -value;
    }
    return signal;
}

} // namespace cospot::plate_photo

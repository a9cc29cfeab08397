#pragma once

#include <cstddef>
#include <vector>

namespace cospot::rendering {

/// Linear light; 1 is what a white sheet in even light sends back.
struct Colour {
    float r = 0.0F, g = 0.0F, b = 0.0F;
};

inline Colour operator+(Colour a, Colour b) {
    return {a.r + b.r, a.g + b.g, a.b + b.b};
}
inline Colour operator-(Colour a, Colour b) {
    return {a.r - b.r, a.g - b.g, a.b - b.b};
}
inline Colour operator*(Colour a, Colour b) {
    return {a.r * b.r, a.g * b.g, a.b * b.b};
}
inline Colour operator*(Colour a, double factor) {
    const auto f = static_cast<float>(factor);
    return {a.r * f, a.g * f, a.b * f};
}

/// From `below` (share 0) to `above` (share 1).
inline Colour mixed(Colour below, Colour above, double share) {
    return below * (1.0 - share) + above * share;
}

/// Pixels in rows from the upper left.
struct Raster {
    int width = 0, height = 0;
    std::vector<Colour> pixels;

    Raster(int w, int h)
        : width(w), height(h), pixels(static_cast<std::size_t>(w) * static_cast<std::size_t>(h)) {}
    [[nodiscard]] Colour &at(int x, int y) { return pixels[index(x, y)]; }
    [[nodiscard]] const Colour &at(int x, int y) const { return pixels[index(x, y)]; }
    [[nodiscard]] std::size_t index(int x, int y) const {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
               static_cast<std::size_t>(x);
    }
};

} // namespace cospot::rendering

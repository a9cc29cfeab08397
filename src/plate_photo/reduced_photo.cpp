#include "plate_photo/reduced_photo.h"

#include <algorithm>

namespace cospot::plate_photo {

namespace {

ReducedPhoto empty_like(int width, int height, int factor) {
    ReducedPhoto photo{width, height, factor, {}};
    for (auto &plane : photo.planes) {
        plane.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    }
    return photo;
}

/// Means of 2 * reach + 1 neighbours of `count` values that lie `step` apart.
void smooth_line(const float *values, float *means, std::ptrdiff_t count, std::ptrdiff_t step,
                 std::ptrdiff_t reach) {
    double sum = 0.0;
    for (std::ptrdiff_t i = 0; i < std::min(reach, count); ++i) {
        sum += values[i * step];
    }
    for (std::ptrdiff_t i = 0; i < count; ++i) {
        if (i + reach < count) {
            sum += values[(i + reach) * step];
        }
        if (i - reach - 1 >= 0) {
            sum -= values[(i - reach - 1) * step];
        }
        const auto used = std::min(i + reach, count - 1) - std::max(i - reach, std::ptrdiff_t{0});
        means[i * step] = static_cast<float>(sum / static_cast<double>(used + 1));
    }
}

} // namespace

ReducedPhoto reduced_photo(const images::Image &photo, int longest) {
    const int factor = (std::max(photo.width, photo.height) + longest - 1) / longest;
    ReducedPhoto reduced = empty_like(photo.width / factor, photo.height / factor, factor);
    const float share = 1.0F / static_cast<float>(factor * factor);
    std::vector<unsigned> sums(3 * static_cast<std::size_t>(reduced.width));
    for (int y = 0; y < reduced.height; ++y) {
        std::fill(sums.begin(), sums.end(), 0U);
        for (int row = y * factor; row < (y + 1) * factor; ++row) {
            const std::uint8_t *pixel = &photo.rgb[photo.at(0, row)];
            for (std::size_t x = 0; x < sums.size(); x += 3) {
                for (int i = 0; i < factor; ++i, pixel += 3) {
                    sums[x] += pixel[0];
                    sums[x + 1] += pixel[1];
                    sums[x + 2] += pixel[2];
                }
            }
        }
        for (std::size_t x = 0; x < sums.size(); ++x) {
            reduced.planes[x % 3][reduced.at(0, y) + x / 3] = share * static_cast<float>(sums[x]);
        }
    }
    return reduced;
}

ReducedPhoto transposed(const ReducedPhoto &photo) {
    ReducedPhoto turned = empty_like(photo.height, photo.width, photo.factor);
    for (std::size_t c = 0; c < photo.planes.size(); ++c) {
        for (int y = 0; y < photo.height; ++y) {
            for (int x = 0; x < photo.width; ++x) {
                turned.planes[c][turned.at(y, x)] = photo.planes[c][photo.at(x, y)];
            }
        }
    }
    return turned;
}

std::vector<float> smoothed(const std::vector<float> &plane, int width, int height, int reach) {
    std::vector<float> along(plane.size());
    std::vector<float> smooth(plane.size());
    for (std::ptrdiff_t y = 0; y < height; ++y) {
        smooth_line(plane.data() + y * width, along.data() + y * width, width, 1, reach);
    }
    for (std::ptrdiff_t x = 0; x < width; ++x) {
        smooth_line(along.data() + x, smooth.data() + x, height, width, reach);
    }
    return smooth;
}

ReducedPhoto smoothed(ReducedPhoto photo, int reach) {
    for (auto &plane : photo.planes) {
        plane = smoothed(plane, photo.width, photo.height, reach);
    }
    return photo;
}

} // namespace cospot::plate_photo

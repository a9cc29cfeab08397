#include "images/resizing.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace cospot::images {

RowReduction::RowReduction(int source_width, int source_height, int width, int height)
    : source_width_(static_cast<std::size_t>(source_width)),
      source_height_(static_cast<std::size_t>(source_height)), image_{width, height, {}},
      row_(3 * static_cast<std::size_t>(width)), sum_(row_.size()) {
    image_.rgb.reserve(row_.size() * static_cast<std::size_t>(height));
}

// Along a side, a pixel of the source is as many units long as the result has pixels, and one of
// the result as many as the source has: so all shares are whole numbers, and none is above a
// pixel's.
void RowReduction::narrow(const std::uint8_t *rgb) {
    const auto unit = static_cast<std::size_t>(image_.width);
    for (std::size_t to = 0; to < unit; ++to) {
        const std::size_t begin = to * source_width_;
        const std::size_t end = begin + source_width_;
        const std::size_t first = begin / unit;
        const std::size_t last = (end - 1) / unit;
        const auto first_share =
            static_cast<std::uint32_t>(std::min((first + 1) * unit, end) - begin);
        const auto last_share = static_cast<std::uint32_t>(first < last ? end - last * unit : 0);
        for (std::size_t channel = 0; channel < 3; ++channel) {
            std::uint32_t between = 0;
            for (std::size_t x = first + 1; x < last; ++x) {
                between += rgb[3 * x + channel];
            }
            row_[3 * to + channel] = rgb[3 * first + channel] * first_share +
                                     between * static_cast<std::uint32_t>(unit) +
                                     rgb[3 * last + channel] * last_share;
        }
    }
}

void RowReduction::add(const std::uint8_t *rgb) {
    narrow(rgb);
    const auto height = static_cast<std::size_t>(image_.height);
    const std::size_t begin = rows_added_ * height;
    const std::size_t end = (rows_done_ + 1) * source_height_;
    const std::size_t share = std::min(end - begin, height);
    for (std::size_t i = 0; i < row_.size(); ++i) {
        sum_[i] += std::uint64_t{row_[i]} * share;
    }
    ++rows_added_;
    if (begin + share == end) {
        finish_row();
        for (std::size_t i = 0; i < row_.size(); ++i) {
            sum_[i] = std::uint64_t{row_[i]} * (height - share);
        }
    }
}

void RowReduction::finish_row() {
    const std::uint64_t area = std::uint64_t{source_width_} * source_height_;
    for (const std::uint64_t sum : sum_) {
        image_.rgb.push_back(static_cast<std::uint8_t>((sum + area / 2) / area));
    }
    ++rows_done_;
}

Image RowReduction::take() {
    return std::move(image_);
}

Image reduced(const Image &image, int max_side) {
    const int longest = std::max(image.width, image.height);
    if (longest <= max_side) {
        return image;
    }
    const auto scaled = [longest, max_side](int side) {
        const double length = static_cast<double>(side) * max_side / longest;
        return std::max(1, static_cast<int>(std::lround(length)));
    };
    RowReduction reduction(image.width, image.height, scaled(image.width), scaled(image.height));
    for (int y = 0; y < image.height; ++y) {
        reduction.add(&image.rgb[image.at(0, y)]);
    }
    return reduction.take();
}

} // namespace cospot::images

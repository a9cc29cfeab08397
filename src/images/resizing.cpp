#include "images/resizing.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace cospot::images {

RowReduction::RowReduction(int source_width, int source_height, int width, int height)
    : source_width_(static_cast<std::size_t>(source_width)),
      source_height_(static_cast<std::size_t>(source_height)), image_(black_image(width, height)),
      row_(3 * static_cast<std::size_t>(width)), sum_(row_.size()) {}

// Along a side, a pixel of n in the source is `count` units long and one of the result n units: so
// all shares are whole numbers.
void RowReduction::add(const std::uint8_t *rgb) {
    const auto width = static_cast<std::size_t>(image_.width);
    std::fill(row_.begin(), row_.end(), 0U);
    std::size_t to = 0;
    std::size_t room = source_width_; // left in the pixel `to`
    for (std::size_t x = 0; x < source_width_; ++x) {
        const std::size_t share = std::min(room, width);
        for (std::size_t channel = 0; channel < 3; ++channel) {
            const std::uint32_t value = rgb[3 * x + channel];
            row_[3 * to + channel] += value * static_cast<std::uint32_t>(share);
            if (share < width) {
                row_[3 * (to + 1) + channel] += value * static_cast<std::uint32_t>(width - share);
            }
        }
        room -= share;
        if (room == 0) {
            ++to;
            room = source_width_ - (width - share);
        }
    }
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
    std::uint8_t *out = &image_.rgb[rows_done_ * sum_.size()];
    for (std::size_t i = 0; i < sum_.size(); ++i) {
        out[i] = static_cast<std::uint8_t>((sum_[i] + area / 2) / area);
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

#include "images/exif_orientation.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <utility>

namespace cospot::images {

namespace {

/// Unsigned numbers of TIFF data in their byte order; empty outside the data.
class TiffNumbers {
public:
    explicit TiffNumbers(std::string_view bytes)
        : bytes_(bytes), little_endian_(bytes.starts_with("II")) {}

    [[nodiscard]] std::optional<std::uint32_t> at(std::uint64_t place, std::size_t width) const {
        if (place + width > bytes_.size()) {
            return std::nullopt;
        }
        std::uint32_t number = 0;
        for (std::size_t i = 0; i < width; ++i) {
            const std::size_t from = little_endian_ ? width - 1 - i : i;
            number = (number << 8U) | static_cast<unsigned char>(bytes_[place + from]);
        }
        return number;
    }

private:
    std::string_view bytes_;
    bool little_endian_;
};

} // namespace

Orientation exif_orientation(std::string_view exif) {
    constexpr std::uint32_t magic = 42;
    constexpr std::uint32_t orientation_tag = 0x0112;
    constexpr std::uint32_t type_short = 3;
    constexpr std::size_t entry_size = 12;
    const TiffNumbers numbers(exif);
    const auto directory = numbers.at(4, 4);
    if (!(exif.starts_with("II") || exif.starts_with("MM")) || numbers.at(2, 2) != magic ||
        !directory) {
        return Orientation::top_left;
    }
    const std::uint32_t entries = numbers.at(*directory, 2).value_or(0);
    for (std::uint32_t i = 0; i < entries; ++i) {
        const std::uint64_t entry = std::uint64_t{*directory} + 2 + entry_size * i;
        if (numbers.at(entry, 2) != orientation_tag) {
            continue;
        }
        const std::uint32_t value = numbers.at(entry + 8, 2).value_or(0);
        const bool is_sound = numbers.at(entry + 2, 2) == type_short &&
                              numbers.at(entry + 4, 4) == 1 && value >= 1 &&
                              value <= static_cast<std::uint32_t>(Orientation::left_bottom);
        return is_sound ? static_cast<Orientation>(value) : Orientation::top_left;
    }
    return Orientation::top_left;
}

Image upright(Image stored, Orientation orientation) {
    if (orientation == Orientation::top_left) {
        return stored;
    }
    // From a place in the upright image to the stored one: at the diagonal first, then mirrored.
    const bool is_diagonal = orientation >= Orientation::left_top;
    const bool mirrors_x =
        orientation == Orientation::top_right || orientation == Orientation::bottom_right ||
        orientation == Orientation::right_bottom || orientation == Orientation::left_bottom;
    const bool mirrors_y =
        orientation == Orientation::bottom_right || orientation == Orientation::bottom_left ||
        orientation == Orientation::right_top || orientation == Orientation::right_bottom;
    Image image = is_diagonal ? black_image(stored.height, stored.width)
                              : black_image(stored.width, stored.height);
    for (int y = 0; y < image.height; ++y) {
        for (int x = 0; x < image.width; ++x) {
            int from_x = is_diagonal ? y : x;
            int from_y = is_diagonal ? x : y;
            from_x = mirrors_x ? stored.width - 1 - from_x : from_x;
            from_y = mirrors_y ? stored.height - 1 - from_y : from_y;
            std::copy_n(&stored.rgb[stored.at(from_x, from_y)], 3, &image.rgb[image.at(x, y)]);
        }
    }
    return image;
}

} // namespace cospot::images

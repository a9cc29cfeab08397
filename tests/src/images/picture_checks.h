#pragma once

#include "images/picture_file.h"

#include <gtest/gtest.h>

#include <array>
#include <string>
#include <string_view>

namespace cospot::images {

inline std::array<int, 3> colour_at(const Image &image, int x, int y) {
    const std::size_t at = image.at(x, y);
    return {image.rgb[at], image.rgb[at + 1], image.rgb[at + 2]};
}

/// What reading the file is refused with; it has to name the file and the picture as the place.
inline std::string refusal(const std::string &bytes, const PictureLimits &limits = {}) {
    try {
        (void)read_picture(bytes, "plate.jpg", limits);
    } catch (const InputError &error) {
        EXPECT_EQ(error.where().file, "plate.jpg");
        EXPECT_EQ(error.where().column, "picture");
        EXPECT_FALSE(error.expected().empty());
        return error.found();
    }
    return "(not refused)";
}

/// Every beginning of the file is refused, and every file with one byte changed is read or refused.
inline void expect_sound_on_damage(const std::string &bytes) {
    for (std::size_t size = 0; size < bytes.size(); ++size) {
        EXPECT_NE(refusal(bytes.substr(0, size)), "(not refused)") << "cut to " << size << " bytes";
    }
    PictureLimits limits;
    limits.most_pixels = 1'000'000;
    for (std::size_t at = 0; at < bytes.size(); ++at) {
        for (const char mask : {'\x01', '\x80', '\xFF'}) {
            std::string changed = bytes;
            changed[at] = static_cast<char>(changed[at] ^ mask);
            EXPECT_NO_THROW((void)refusal(changed, limits)) << "byte " << at << " changed";
        }
    }
}

} // namespace cospot::images

#include "images/picture_kind.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>

namespace cospot::images {

namespace {

using namespace std::string_view_literals;

bool holds(std::string_view bytes, std::size_t at, std::string_view text) {
    return bytes.size() >= at + text.size() && bytes.substr(at, text.size()) == text;
}

std::uint32_t byte_of(std::string_view bytes, std::size_t at) {
    return static_cast<unsigned char>(bytes[at]);
}

template <std::size_t N>
bool begins_with_any(std::string_view bytes, const std::array<std::string_view, N> &starts) {
    return std::any_of(starts.begin(), starts.end(),
                       [bytes](std::string_view start) { return bytes.starts_with(start); });
}

/// Of a file of the ISO base media format: by its major and compatible brands.
std::optional<PictureKind> kind_by_brands(std::string_view bytes) {
    constexpr std::size_t brands_at = 8;
    const std::size_t box = (byte_of(bytes, 2) << 8U) | byte_of(bytes, 3);
    const std::string_view brands =
        bytes.substr(brands_at, std::max(box, brands_at + 4) - brands_at);
    const auto names = [&brands](std::initializer_list<std::string_view> wanted) {
        for (std::size_t at = 0; at + 4 <= brands.size(); at += 4) {
            if (std::find(wanted.begin(), wanted.end(), brands.substr(at, 4)) != wanted.end()) {
                return true;
            }
        }
        return false;
    };
    if (names({"avif", "avis"})) {
        return PictureKind::avif;
    }
    if (names({"crx "})) {
        return PictureKind::camera_raw;
    }
    if (names({"heic", "heix", "heim", "heis", "hevc", "hevx", "mif1", "msf1"})) {
        return PictureKind::heif;
    }
    return std::nullopt;
}

/// "BM" begins many a table as well: the reserved bytes and the size of the second header count.
bool is_bmp(std::string_view bytes) {
    constexpr std::array<std::uint32_t, 7> header_sizes{12, 40, 52, 56, 64, 108, 124};
    return bytes.size() >= 18 && bytes.starts_with("BM") && holds(bytes, 6, "\0\0\0\0"sv) &&
           holds(bytes, 15, "\0\0\0"sv) &&
           std::find(header_sizes.begin(), header_sizes.end(), byte_of(bytes, 14)) !=
               header_sizes.end();
}

} // namespace

std::optional<PictureKind> picture_kind(std::string_view first_bytes) {
    constexpr std::array tiff{"II*\0"sv, "MM\0*"sv, "II+\0"sv, "MM\0+"sv};
    constexpr std::array raw{"IIRO"sv, "IIRS"sv, "MMOR"sv, "IIU\0"sv};
    if (first_bytes.starts_with("\xFF\xD8\xFF")) {
        return PictureKind::jpeg;
    }
    if (first_bytes.starts_with("\x89PNG")) {
        return PictureKind::png;
    }
    if (begins_with_any(first_bytes, tiff)) {
        return PictureKind::tiff;
    }
    if (first_bytes.size() > 8 && begins_with_any(first_bytes, raw) &&
        holds(first_bytes, 5, "\0\0"sv)) {
        return PictureKind::camera_raw;
    }
    if (first_bytes.starts_with("GIF87a") || first_bytes.starts_with("GIF89a")) {
        return PictureKind::gif;
    }
    if (first_bytes.starts_with("RIFF") && holds(first_bytes, 8, "WEBP")) {
        return PictureKind::webp;
    }
    if (first_bytes.size() >= 12 && holds(first_bytes, 0, "\0\0"sv) &&
        holds(first_bytes, 4, "ftyp")) {
        return kind_by_brands(first_bytes);
    }
    if (is_bmp(first_bytes)) {
        return PictureKind::bmp;
    }
    return std::nullopt;
}

bool is_picture(std::string_view first_bytes) {
    return picture_kind(first_bytes).has_value();
}

InputError unread_picture(std::optional<PictureKind> kind, const std::string &file) {
    const auto error = [&file](const char *found, const char *expected) {
        return InputError({file, 0, "picture"}, found, expected);
    };
    constexpr const char *export_it = "a JPEG or PNG file: open the picture and export it as JPEG";
    if (kind) {
        switch (*kind) {
        case PictureKind::heif:
            return error("an HEIF picture (HEIC)",
                         "a JPEG or PNG file: share or export the picture as JPEG, or let the "
                         "phone's camera take JPEG");
        case PictureKind::avif:
            return error("an AVIF picture", export_it);
        case PictureKind::webp:
            return error("a WebP picture", export_it);
        case PictureKind::tiff:
            return error("a TIFF picture, or a raw file of a camera", export_it);
        case PictureKind::camera_raw:
            return error("a raw file of a camera", export_it);
        case PictureKind::gif:
            return error("a GIF picture",
                         "a JPEG or PNG file: use the photo that it was made from");
        case PictureKind::bmp:
            return error("a BMP picture",
                         "a JPEG or PNG file: open the picture and save it as PNG");
        case PictureKind::jpeg:
        case PictureKind::png:
            break;
        }
    }
    return error("a file that is no picture", "a JPEG or PNG file");
}

} // namespace cospot::images

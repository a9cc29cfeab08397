#include "images/png_picture.h"

#include "images/exif_orientation.h"
#include "images/guarded_call.h"
#include "images/resizing.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <png.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <new>
#include <utility>

namespace cospot::images {

namespace {

constexpr char kExif[] = "eXIf";
constexpr png_alloc_size_t kMostExifBytes = 1U << 20U;

/// libpng's reader with its memory, and the place in the file.
struct PngDecoder {
    std::string_view bytes{};
    std::size_t at = 0;
    JumpBack jump{};
    png_structp png = nullptr;
    png_infop info = nullptr;

    explicit PngDecoder(std::string_view file_bytes) : bytes(file_bytes) {}
    PngDecoder(const PngDecoder &) = delete;
    PngDecoder &operator=(const PngDecoder &) = delete;
    PngDecoder(PngDecoder &&) = delete;
    PngDecoder &operator=(PngDecoder &&) = delete;
    ~PngDecoder() { png_destroy_read_struct(&png, &info, nullptr); }
};

[[noreturn]] void jump_out_of_png(png_structp png, png_const_charp message) {
    JumpBack &jump = static_cast<PngDecoder *>(png_get_error_ptr(png))->jump;
    const std::size_t length = std::min(std::string_view(message).size(), jump.message.size() - 1);
    *std::copy_n(message, length, jump.message.begin()) = '\0';
    std::longjmp(jump.place, 1);
}

/// Warnings are about chunks that are left out.
void ignore_png_warning(png_structp /*png*/, png_const_charp /*message*/) {}

void hand_bytes_to_png(png_structp png, png_bytep room, std::size_t size) {
    auto &decoder = *static_cast<PngDecoder *>(png_get_io_ptr(png));
    if (size > decoder.bytes.size() - decoder.at) {
        png_error(png, "it ends too early");
    }
    std::copy_n(decoder.bytes.data() + decoder.at, size, reinterpret_cast<char *>(room));
    decoder.at += size;
}

/// Runs calls of libpng; throws InputError where it fails.
template <typename Calls>
void run_png(PngDecoder &decoder, const std::string &file, const Calls &calls) {
    if (!succeeds(decoder.jump, calls)) {
        throw InputError(in_picture(file),
                         fmt::format("damage near byte {} of {}: {}", decoder.at,
                                     decoder.bytes.size(), decoder.jump.message.data()),
                         "a complete PNG file: copy or export it once more");
    }
}

void open_png(PngDecoder &decoder, const std::string &file) {
    decoder.png = png_create_read_struct(PNG_LIBPNG_VER_STRING, &decoder, jump_out_of_png,
                                         ignore_png_warning);
    decoder.info = decoder.png == nullptr ? nullptr : png_create_info_struct(decoder.png);
    if (decoder.info == nullptr) {
        throw std::bad_alloc();
    }
    run_png(decoder, file, [&decoder] {
        png_structp png = decoder.png;
        png_set_read_fn(png, &decoder, hand_bytes_to_png);
        // Sides are judged by require_picture_size, whose message says what to do.
        png_set_user_limits(png, PNG_UINT_31_MAX, PNG_UINT_31_MAX);
        // All that is not needed for pixels is skipped unseen. Of eXIf the bytes are kept: where
        // libpng reads it itself, it takes as much memory as the chunk claims to have.
        png_set_keep_unknown_chunks(png, PNG_HANDLE_CHUNK_NEVER, nullptr, -1);
        png_set_keep_unknown_chunks(png, PNG_HANDLE_CHUNK_ALWAYS,
                                    reinterpret_cast<png_const_bytep>(kExif), 1);
        png_set_chunk_malloc_max(png, kMostExifBytes);
        png_read_info(png, decoder.info);
    });
}

void require_readable_png(const PngDecoder &decoder, const PictureLimits &limits,
                          const std::string &file) {
    const std::int64_t width = png_get_image_width(decoder.png, decoder.info);
    const std::int64_t height = png_get_image_height(decoder.png, decoder.info);
    require_picture_size(width, height, limits, file);
    const bool is_interlaced =
        png_get_interlace_type(decoder.png, decoder.info) != PNG_INTERLACE_NONE;
    if (is_interlaced && width * height > limits.kept_pixels) {
        throw InputError(in_picture(file),
                         fmt::format("an interlaced PNG of {} x {} pixels", width, height),
                         "a PNG that is not interlaced at this size, or a smaller picture");
    }
    // Deflate packs at most 1032 bytes into one (zlib, technical notes, from memory).
    constexpr std::uint64_t most_packed = 1032;
    const std::uint64_t unpacked =
        png_get_rowbytes(decoder.png, decoder.info) * static_cast<std::uint64_t>(height);
    if (decoder.bytes.size() < unpacked / most_packed) {
        throw InputError(in_picture(file),
                         fmt::format("{} for {} x {} pixels", counted(decoder.bytes.size(), "byte"),
                                     width, height),
                         fmt::format("a complete PNG file: so many pixels take at least {} bytes",
                                     unpacked / most_packed));
    }
}

/// Lays pixels of RGBA over white, as they are stored (sRGB); `rgb` may be `rgba` itself.
void lay_over_white(const std::uint8_t *rgba, std::size_t pixels, std::uint8_t *rgb) {
    constexpr unsigned opaque = 255;
    for (std::size_t i = 0; i < pixels; ++i) {
        const unsigned alpha = rgba[4 * i + 3];
        for (std::size_t channel = 0; channel < 3; ++channel) {
            const unsigned sum = alpha * rgba[4 * i + channel] + (opaque - alpha) * opaque;
            rgb[3 * i + channel] = static_cast<std::uint8_t>((sum + opaque / 2) / opaque);
        }
    }
}

/// Asks libpng for rows of RGB, or RGBA where something is transparent; returns their channels.
std::size_t ask_for_rgb(PngDecoder &decoder, const std::string &file) {
    run_png(decoder, file, [&decoder] {
        png_set_expand(decoder.png);
        png_set_scale_16(decoder.png);
        png_set_gray_to_rgb(decoder.png);
        (void)png_set_interlace_handling(decoder.png);
        png_read_update_info(decoder.png, decoder.info);
    });
    return png_get_channels(decoder.png, decoder.info);
}

/// The rows of an interlaced picture come in several passes, so all are kept.
Image decoded_interlaced(PngDecoder &decoder, std::size_t channels, int width, int height,
                         const std::string &file) {
    const std::size_t row_bytes = channels * static_cast<std::size_t>(width);
    const std::size_t pixels = static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
    // Not set to 0 before: a cut file fails before most of it is touched.
    const auto bytes = std::make_unique_for_overwrite<std::uint8_t[]>(channels * pixels);
    std::vector<png_bytep> rows;
    for (std::size_t y = 0; y < static_cast<std::size_t>(height); ++y) {
        rows.push_back(&bytes[y * row_bytes]);
    }
    run_png(decoder, file, [&] { png_read_image(decoder.png, rows.data()); });
    if (channels == 4) {
        lay_over_white(bytes.get(), pixels, bytes.get());
    }
    return {width, height, {bytes.get(), bytes.get() + 3 * pixels}};
}

/// Hands the rows to `take` as RGB from the top.
template <typename Take>
void decode_rows(PngDecoder &decoder, std::size_t channels, int width, int height,
                 const std::string &file, const Take &take) {
    std::vector<std::uint8_t> row(channels * static_cast<std::size_t>(width));
    for (int y = 0; y < height; ++y) {
        run_png(decoder, file, [&] { png_read_row(decoder.png, row.data(), nullptr); });
        if (channels == 4) {
            lay_over_white(row.data(), static_cast<std::size_t>(width), row.data());
        }
        take(row.data());
    }
}

Image decoded_png(PngDecoder &decoder, int width, int height, double reduced_by,
                  const std::string &file) {
    const bool is_interlaced =
        png_get_interlace_type(decoder.png, decoder.info) != PNG_INTERLACE_NONE;
    const std::size_t channels = ask_for_rgb(decoder, file);
    if (is_interlaced) {
        return decoded_interlaced(decoder, channels, width, height, file);
    }
    if (reduced_by > 1.0) {
        const auto scaled = [reduced_by](int side) {
            return std::max(1, static_cast<int>(side / reduced_by));
        };
        RowReduction reduction(width, height, scaled(width), scaled(height));
        decode_rows(decoder, channels, width, height, file,
                    [&](const std::uint8_t *rgb) { reduction.add(rgb); });
        return reduction.take();
    }
    Image image{width, height, {}};
    const std::size_t row_bytes = 3 * static_cast<std::size_t>(width);
    image.rgb.reserve(row_bytes * static_cast<std::size_t>(height));
    decode_rows(decoder, channels, width, height, file, [&](const std::uint8_t *rgb) {
        image.rgb.insert(image.rgb.end(), rgb, rgb + row_bytes);
    });
    return image;
}

Orientation png_orientation(const PngDecoder &decoder) {
    png_unknown_chunkp chunks = nullptr;
    const int count = png_get_unknown_chunks(decoder.png, decoder.info, &chunks);
    for (int i = 0; i < count; ++i) {
        if (std::string_view(reinterpret_cast<const char *>(chunks[i].name)) == kExif) {
            return exif_orientation(
                {reinterpret_cast<const char *>(chunks[i].data), chunks[i].size});
        }
    }
    return Orientation::top_left;
}

} // namespace

Picture read_png(std::string_view bytes, const std::string &file, const PictureLimits &limits) {
    PngDecoder decoder(bytes);
    open_png(decoder, file);
    require_readable_png(decoder, limits, file);

    Picture picture;
    picture.kind = PictureKind::png;
    picture.stored_width = static_cast<int>(png_get_image_width(decoder.png, decoder.info));
    picture.stored_height = static_cast<int>(png_get_image_height(decoder.png, decoder.info));
    const double pixels = static_cast<double>(picture.stored_width) * picture.stored_height;
    picture.reduced_by = std::max(1.0, std::sqrt(pixels / static_cast<double>(limits.kept_pixels)));
    Image stored =
        decoded_png(decoder, picture.stored_width, picture.stored_height, picture.reduced_by, file);
    // eXIf may stand behind the pixels as well.
    run_png(decoder, file, [&decoder] { png_read_end(decoder.png, decoder.info); });
    const Orientation orientation = png_orientation(decoder);
    picture.turned = orientation != Orientation::top_left;
    picture.image = upright(std::move(stored), orientation);
    return picture;
}

} // namespace cospot::images

#include "images/jpeg_picture.h"

#include "images/exif_orientation.h"
#include "images/guarded_call.h"
#include "images/jpeg_segments.h"
#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdio> // jpeglib.h needs it
#include <functional>
#include <new>
#include <utility>

#include <jerror.h>
#include <jpeglib.h>

namespace cospot::images {

namespace {

/// Encoders write about 10 scans of a progressive picture; each costs a pass over all of it.
constexpr std::size_t kMostScans = 40;
constexpr std::uint64_t kMostCoefficientBytes = 256U << 20U;

/// libjpeg's decompressor with its memory. Not to be moved: libjpeg keeps pointers into it.
struct JpegDecoder {
    jpeg_decompress_struct info{};
    jpeg_error_mgr handler{};
    JumpBack jump{};
    bool has_stray_bytes = false;

    JpegDecoder() = default;
    JpegDecoder(const JpegDecoder &) = delete;
    JpegDecoder &operator=(const JpegDecoder &) = delete;
    JpegDecoder(JpegDecoder &&) = delete;
    JpegDecoder &operator=(JpegDecoder &&) = delete;
    ~JpegDecoder() { jpeg_destroy_decompress(&info); }
};

JpegDecoder &decoder_of(j_common_ptr info) {
    return *static_cast<JpegDecoder *>(info->client_data);
}

void jump_out_of_jpeg(j_common_ptr info) {
    JpegDecoder &decoder = decoder_of(info);
    static_assert(sizeof(JumpBack::message) >= JMSG_LENGTH_MAX);
    info->err->format_message(info, decoder.jump.message.data());
    decoder.jump.code = info->err->msg_code;
    std::longjmp(decoder.jump.place, 1);
}

/// Stray bytes may do no harm, odd versions do none; after any other warning pixels are wrong.
void judge_jpeg_warning(j_common_ptr info, int level) {
    if (level >= 0) {
        return; // a trace, not a warning
    }
    const int code = info->err->msg_code;
    if (code == JWRN_EXTRANEOUS_DATA) {
        decoder_of(info).has_stray_bytes = true;
    } else if (code != JWRN_JFIF_MAJOR && code != JWRN_ADOBE_XFORM) {
        jump_out_of_jpeg(info);
    }
}

/// How far the decoder has come; at the end it reads out of a buffer of its own.
std::size_t jpeg_offset(const JpegDecoder &decoder, std::string_view bytes) {
    const jpeg_source_mgr *source = decoder.info.src;
    const auto *begin = reinterpret_cast<const JOCTET *>(bytes.data());
    const bool is_inside = source != nullptr && source->next_input_byte != nullptr &&
                           !std::less<>()(source->next_input_byte, begin) &&
                           std::less<>()(source->next_input_byte, begin + bytes.size());
    return is_inside ? bytes.size() - source->bytes_in_buffer : bytes.size();
}

/// What to throw after a jump: memory that is short is no fault of the file.
[[noreturn]] void throw_jpeg_fault(const JpegDecoder &decoder, std::string_view bytes,
                                   const std::string &file) {
    if (decoder.jump.code == JERR_OUT_OF_MEMORY) {
        throw std::bad_alloc();
    }
    throw InputError(in_picture(file),
                     fmt::format("damage near byte {} of {}: {}", jpeg_offset(decoder, bytes),
                                 bytes.size(), decoder.jump.message.data()),
                     "a complete JPEG file, as the camera wrote it: copy it once more");
}

/// For each JPEG of another kind its name; empty for those that are read.
std::string unread_jpeg(const jpeg_decompress_struct &info) {
    if (info.jpeg_color_space == JCS_CMYK || info.jpeg_color_space == JCS_YCCK) {
        return "a JPEG in the four inks of print (CMYK)";
    }
    if (info.num_components != 1 && info.num_components != 3) {
        return fmt::format("a JPEG with {} channels", info.num_components);
    }
    if (info.arith_code != 0) {
        return "a JPEG with arithmetic coding";
    }
    return "";
}

std::string unread_jpeg_by_code(int code) {
    switch (code) {
    case JERR_SOF_UNSUPPORTED:
        return "a lossless or otherwise rare kind of JPEG";
    case JERR_BAD_PRECISION:
        return "a JPEG with other than 8 bits a channel";
    default:
        return "";
    }
}

/// Throws InputError where decoding would cost more than the file can be worth.
void require_cheap(jpeg_decompress_struct &info, std::size_t scans, std::string_view bytes,
                   const std::string &file) {
    std::uint64_t blocks = 0;
    for (int i = 0; i < info.num_components; ++i) {
        blocks +=
            std::uint64_t{info.comp_info[i].width_in_blocks} * info.comp_info[i].height_in_blocks;
    }
    // Each block has at least the one bit that its first coefficient's code takes (T.81, annex F).
    if (bytes.size() < blocks / 8) {
        throw InputError(
            in_picture(file),
            fmt::format("{} for {} x {} pixels", counted(bytes.size(), "byte"), info.image_width,
                        info.image_height),
            fmt::format("a complete JPEG file: so many pixels take at least {} bytes", blocks / 8));
    }
    const std::uint64_t coefficient_bytes = blocks * DCTSIZE2 * sizeof(JCOEF);
    if (jpeg_has_multiple_scans(&info) != 0 && coefficient_bytes > kMostCoefficientBytes) {
        throw InputError(in_picture(file),
                         fmt::format("a progressive JPEG of {} x {} pixels", info.image_width,
                                     info.image_height),
                         "a baseline JPEG at this size, or a smaller picture: export it once more");
    }
    if (scans > kMostScans) {
        throw InputError(in_picture(file), fmt::format("{} scans in one JPEG", scans),
                         fmt::format("at most {}: export the picture once more", kMostScans));
    }
}

/// Sets the largest n/8 of the sides at which no more than `kept_pixels` remain.
void choose_scale(jpeg_decompress_struct &info, std::int64_t kept_pixels) {
    info.scale_denom = 8;
    const auto side = [&info](JDIMENSION stored) {
        return (std::int64_t{stored} * info.scale_num + 7) / 8;
    };
    for (info.scale_num = 8; info.scale_num > 1; --info.scale_num) {
        if (side(info.image_width) * side(info.image_height) <= kept_pixels) {
            return;
        }
    }
}

void open_jpeg(JpegDecoder &decoder, std::string_view bytes, const std::string &file) {
    jpeg_decompress_struct &info = decoder.info;
    info.err = jpeg_std_error(&decoder.handler);
    info.client_data = &decoder;
    decoder.handler.error_exit = jump_out_of_jpeg;
    decoder.handler.emit_message = judge_jpeg_warning;
    const bool is_open = succeeds(decoder.jump, [&] {
        jpeg_create_decompress(&info);
        jpeg_mem_src(&info, reinterpret_cast<const unsigned char *>(bytes.data()), bytes.size());
        (void)jpeg_read_header(&info, TRUE);
    });
    std::string unread = is_open ? unread_jpeg(info) : unread_jpeg_by_code(decoder.jump.code);
    if (!unread.empty()) {
        throw InputError(in_picture(file), std::move(unread),
                         "a JPEG in RGB or grey with 8 bits a channel: export the picture so");
    }
    if (!is_open) {
        throw_jpeg_fault(decoder, bytes, file);
    }
}

Image decoded_jpeg(JpegDecoder &decoder, std::string_view bytes, const std::string &file) {
    jpeg_decompress_struct &info = decoder.info;
    const auto run = [&](const auto &calls) {
        if (!succeeds(decoder.jump, calls)) {
            throw_jpeg_fault(decoder, bytes, file);
        }
    };
    info.out_color_space = JCS_RGB;
    info.do_block_smoothing = FALSE; // where a progressive file lacks scans, nothing is guessed
    run([&] { (void)jpeg_start_decompress(&info); });
    Image image{static_cast<int>(info.output_width), static_cast<int>(info.output_height), {}};
    const std::size_t row_bytes = 3 * std::size_t{info.output_width};
    image.rgb.reserve(row_bytes * info.output_height); // filled row by row: a cut file fails early
    while (info.output_scanline < info.output_height) {
        image.rgb.resize(image.rgb.size() + row_bytes);
        JSAMPROW row = image.rgb.data() + image.rgb.size() - row_bytes;
        run([&] { (void)jpeg_read_scanlines(&info, &row, 1); });
    }
    run([&] { (void)jpeg_finish_decompress(&info); });
    return image;
}

} // namespace

Picture read_jpeg(std::string_view bytes, const std::string &file, const PictureLimits &limits) {
    JpegDecoder decoder;
    open_jpeg(decoder, bytes, file);
    jpeg_decompress_struct &info = decoder.info;
    require_picture_size(info.image_width, info.image_height, limits, file);
    const JpegSegments segments = jpeg_segments(bytes);
    require_cheap(info, segments.scans, bytes, file);
    choose_scale(info, limits.kept_pixels);

    Picture picture;
    picture.kind = PictureKind::jpeg;
    picture.stored_width = static_cast<int>(info.image_width);
    picture.stored_height = static_cast<int>(info.image_height);
    picture.reduced_by = 8.0 / info.scale_num;
    const Orientation orientation = exif_orientation(segments.exif);
    picture.turned = orientation != Orientation::top_left;
    picture.image = upright(decoded_jpeg(decoder, bytes, file), orientation);
    if (decoder.has_stray_bytes) {
        picture.notes.emplace_back(
            "The JPEG file holds bytes that belong to no part of it, as after "
            "damage: look whether the picture is whole.");
    }
    return picture;
}

} // namespace cospot::images

#include "images/jpeg_writing.h"

#include "images/guarded_call.h"

#include <cstdio> // jpeglib.h needs it
#include <cstdlib>
#include <stdexcept>

#include <jpeglib.h>

namespace cospot::images {

namespace {

/// libjpeg's compressor with its memory and the file that it makes.
struct JpegEncoder {
    jpeg_compress_struct info{};
    jpeg_error_mgr handler{};
    JumpBack jump{};
    unsigned char *bytes = nullptr;
    unsigned long size = 0;

    JpegEncoder() = default;
    JpegEncoder(const JpegEncoder &) = delete;
    JpegEncoder &operator=(const JpegEncoder &) = delete;
    JpegEncoder(JpegEncoder &&) = delete;
    JpegEncoder &operator=(JpegEncoder &&) = delete;
    ~JpegEncoder() {
        jpeg_destroy_compress(&info);
        std::free(bytes); // jpeg_mem_dest takes it by malloc
    }
};

void jump_out_of_encoder(j_common_ptr info) {
    JumpBack &jump = static_cast<JpegEncoder *>(info->client_data)->jump;
    info->err->format_message(info, jump.message.data());
    std::longjmp(jump.place, 1);
}

void begin_jpeg(JpegEncoder &encoder, const Image &image, int quality) {
    jpeg_compress_struct &info = encoder.info;
    jpeg_create_compress(&info);
    jpeg_mem_dest(&info, &encoder.bytes, &encoder.size);
    info.image_width = static_cast<JDIMENSION>(image.width);
    info.image_height = static_cast<JDIMENSION>(image.height);
    info.input_components = 3;
    info.in_color_space = JCS_RGB;
    jpeg_set_defaults(&info);
    jpeg_set_quality(&info, quality, TRUE);
    info.optimize_coding = TRUE;
    for (int i = 0; i < info.num_components; ++i) {
        info.comp_info[i].h_samp_factor = 1;
        info.comp_info[i].v_samp_factor = 1;
    }
    jpeg_start_compress(&info, TRUE);
}

} // namespace

std::string jpeg_of(const Image &image, int quality) {
    if (quality < 1 || quality > 100 || image.width < 1 || image.height < 1 ||
        image.width > JPEG_MAX_DIMENSION || image.height > JPEG_MAX_DIMENSION) {
        throw std::logic_error("a JPEG needs a quality from 1 to 100 and sides from 1 to 65500");
    }
    JpegEncoder encoder;
    encoder.info.err = jpeg_std_error(&encoder.handler);
    encoder.info.client_data = &encoder;
    encoder.handler.error_exit = jump_out_of_encoder;
    const bool is_written = succeeds(encoder.jump, [&] {
        begin_jpeg(encoder, image, quality);
        while (encoder.info.next_scanline < encoder.info.image_height) {
            const int y = static_cast<int>(encoder.info.next_scanline);
            JSAMPROW row = const_cast<JSAMPROW>(&image.rgb[image.at(0, y)]); // it is only read
            (void)jpeg_write_scanlines(&encoder.info, &row, 1);
        }
        jpeg_finish_compress(&encoder.info);
    });
    if (!is_written) {
        encoder.bytes =
            nullptr; // libjpeg may have freed what it points to: lost rather than freed twice
        throw std::runtime_error(std::string("no JPEG was written: ") +
                                 encoder.jump.message.data());
    }
    return {reinterpret_cast<const char *>(encoder.bytes), encoder.size};
}

} // namespace cospot::images

#include "made_pictures.h"

#include <zlib.h>

#include <array>
#include <cstdlib>

namespace cospot::images {

namespace {

std::string big_endian(std::uint32_t value, int bytes) {
    std::string text;
    for (int i = bytes - 1; i >= 0; --i) {
        text += static_cast<char>((value >> (8 * i)) & 0xFFU);
    }
    return text;
}

std::string jpeg_segment(std::uint8_t marker, const std::string &content) {
    return std::string("\xFF") + static_cast<char>(marker) +
           big_endian(static_cast<std::uint32_t>(content.size() + 2), 2) + content;
}

/// The bits of a scan, with a zero byte stuffed behind each FF.
class ScanBits {
public:
    void put(unsigned value, int count) {
        for (int i = count - 1; i >= 0; --i) {
            byte_ = (byte_ << 1U) | ((value >> i) & 1U);
            if (++filled_ == 8) {
                bytes_ += static_cast<char>(byte_);
                if (byte_ == 0xFF) {
                    bytes_ += '\0';
                }
                byte_ = 0;
                filled_ = 0;
            }
        }
    }
    std::string bytes() {
        while (filled_ != 0) {
            put(1, 1);
        }
        return bytes_;
    }

private:
    std::string bytes_;
    unsigned byte_ = 0;
    int filled_ = 0;
};

/// Category and bits of a difference (T.81, table F.1); the categories' codes have 4 bits each.
void put_difference(ScanBits &bits, int difference) {
    int category = 0;
    while (std::abs(difference) >> category != 0) {
        ++category;
    }
    bits.put(static_cast<unsigned>(category), 4);
    const int value = difference < 0 ? difference + (1 << category) - 1 : difference;
    bits.put(static_cast<unsigned>(value), category);
}

std::string scan_header(std::size_t channels, bool is_progressive, bool is_first) {
    std::string content(1, static_cast<char>(channels));
    for (std::size_t i = 0; i < channels; ++i) {
        content += static_cast<char>(i + 1);
        content += '\0';
    }
    content += static_cast<char>(is_first ? 0 : 1);
    content += static_cast<char>(is_progressive && is_first ? 0 : 63);
    content += '\0';
    return jpeg_segment(0xDA, content);
}

std::string scan(const MadeJpeg &made) {
    const bool is_progressive = made.frame == 0xC2;
    ScanBits bits;
    std::vector<int> last(made.channels.size());
    for (int block = 0; block < made.blocks_across * made.blocks_down; ++block) {
        for (std::size_t i = 0; i < made.channels.size(); ++i) {
            // A constant block has the first coefficient 8 times its value (T.81, A.3.3).
            const int first = 8 * (made.channels[i][static_cast<std::size_t>(block)] - 128);
            put_difference(bits, first - last[i]);
            last[i] = first;
            if (!is_progressive) {
                bits.put(0, 1); // end of block
            }
        }
    }
    return bits.bytes();
}

} // namespace

std::string jpeg_file(const MadeJpeg &made) {
    std::string frame(1, static_cast<char>(made.precision));
    const int width = made.claimed_width != 0 ? made.claimed_width : 8 * made.blocks_across;
    const int height = made.claimed_height != 0 ? made.claimed_height : 8 * made.blocks_down;
    frame += big_endian(static_cast<std::uint32_t>(height), 2);
    frame += big_endian(static_cast<std::uint32_t>(width), 2);
    frame += static_cast<char>(made.channels.size());
    for (std::size_t i = 0; i < made.channels.size(); ++i) {
        frame += static_cast<char>(i + 1);
        frame += std::string("\x11\0", 2);
    }
    std::string first_codes(17, '\0');
    first_codes[4] = 12; // codes of 4 bits, for the categories 0 to 11
    for (int category = 0; category < 12; ++category) {
        first_codes += static_cast<char>(category);
    }
    std::string further_codes("\x10\x01", 2); // one code of 1 bit, for the end of a block
    further_codes += std::string(16, '\0');
    std::string bytes = "\xFF\xD8";
    if (!made.exif.empty()) {
        bytes += jpeg_segment(0xE1, std::string("Exif\0\0", 6) + made.exif);
    }
    bytes += jpeg_segment(0xDB, std::string(1, '\0') + std::string(64, '\x01'));
    bytes += jpeg_segment(made.frame, frame) + jpeg_segment(0xC4, first_codes) +
             jpeg_segment(0xC4, further_codes) +
             scan_header(made.channels.size(), made.frame == 0xC2, true) + scan(made);
    for (std::size_t i = 0; i < made.further_scans; ++i) {
        bytes += scan_header(1, made.frame == 0xC2, false) + '\0';
    }
    return bytes + "\xFF\xD9";
}

std::string exif_with_orientation(int value, bool little_endian) {
    const auto number = [little_endian](std::uint32_t n, int bytes) {
        const std::string text = big_endian(n, bytes);
        return little_endian ? std::string(text.rbegin(), text.rend()) : text;
    };
    const auto entry = [&number](std::uint32_t tag, std::uint32_t content) {
        return number(tag, 2) + number(3, 2) + number(1, 4) + number(content, 2) + number(0, 2);
    };
    return (little_endian ? "II" : "MM") + number(42, 2) + number(8, 4) + number(2, 2) +
           entry(0x0103, 6) + entry(0x0112, static_cast<std::uint32_t>(value)) + number(0, 4);
}

std::string png_chunk(const std::string &type, const std::string &content) {
    const std::string named = type + content;
    const uLong sum =
        crc32(0, reinterpret_cast<const Bytef *>(named.data()), static_cast<uInt>(named.size()));
    return big_endian(static_cast<std::uint32_t>(content.size()), 4) + named +
           big_endian(static_cast<std::uint32_t>(sum), 4);
}

std::string deflated(const std::string &bytes) {
    uLongf size = compressBound(static_cast<uLong>(bytes.size()));
    std::string packed(size, '\0');
    (void)compress2(reinterpret_cast<Bytef *>(packed.data()), &size,
                    reinterpret_cast<const Bytef *>(bytes.data()), static_cast<uLong>(bytes.size()),
                    9);
    packed.resize(size);
    return packed;
}

std::string png_file(const MadePng &made) {
    std::string header = big_endian(made.width, 4) + big_endian(made.height, 4);
    for (const std::uint8_t field :
         {made.depth, made.colour_type, std::uint8_t{0}, std::uint8_t{0}, made.interlace}) {
        header += static_cast<char>(field);
    }
    return "\x89PNG\r\n\x1A\n" + png_chunk("IHDR", header) + made.chunks +
           png_chunk("IDAT", deflated(made.rows)) + made.behind + png_chunk("IEND", "");
}

} // namespace cospot::images

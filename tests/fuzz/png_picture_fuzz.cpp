// A PNG file, as a photo of a plate comes.
#include "fuzzed_pictures.h"

#include <zlib.h>

#include <string>

namespace {

/// The bytes with the check value of each chunk made right: else a changed chunk is refused unread.
std::string with_right_sums(std::string bytes) {
    constexpr std::size_t signature = 8;
    constexpr std::size_t frame = 12; // length, type and check value
    const auto *content = reinterpret_cast<const Bytef *>(bytes.data());
    for (std::size_t at = signature; at + frame <= bytes.size();) {
        std::size_t length = 0;
        for (std::size_t i = 0; i < 4; ++i) {
            length = (length << 8U) | content[at + i];
        }
        if (length > bytes.size() - at - frame) {
            break;
        }
        const uLong sum = crc32(0, content + at + 4, static_cast<uInt>(length + 4));
        for (std::size_t i = 0; i < 4; ++i) {
            bytes[at + length + 8 + i] = static_cast<char>((sum >> (8 * (3 - i))) & 0xFFU);
        }
        at += length + frame;
    }
    return bytes;
}

} // namespace

int LLVMFuzzerTestOneInput(const std::uint8_t *data, std::size_t size) {
    cospot::fuzz::read_fuzzed_picture(with_right_sums(cospot::fuzz::text_of(data, size)));
    return 0;
}

#include "traces/inflate.h"

#include "shared/text.h"

#include <fmt/format.h>
#include <zlib.h>

#include <algorithm>
#include <istream>
#include <limits>
#include <new>

namespace cospot {

namespace {

constexpr std::size_t kLargestGunzipped = 1U << 30U;
constexpr int kZlibWindow = 15;
constexpr int kGzipWindow = 15 + 16; // zlib.h: 16 more asks for a gzip header

/// A stream of zlib with its memory, which the caller feeds and drains.
class Inflation {
public:
    explicit Inflation(int window) {
        if (inflateInit2(&stream_, window) != Z_OK) {
            throw std::bad_alloc();
        }
    }
    Inflation(const Inflation &) = delete;
    Inflation &operator=(const Inflation &) = delete;
    Inflation(Inflation &&) = delete;
    Inflation &operator=(Inflation &&) = delete;
    ~Inflation() { (void)inflateEnd(&stream_); }

    /// The bytes have to live until they are used up.
    void feed(std::string_view bytes) {
        stream_.next_in = const_cast<Bytef *>(reinterpret_cast<const Bytef *>(bytes.data()));
        stream_.avail_in = static_cast<uInt>(bytes.size());
    }

    /// Fills `room` from its offset `at` on; returns how many bytes came.
    std::size_t drain(std::string &room, std::size_t at) {
        const auto size = static_cast<uInt>(room.size() - at);
        stream_.next_out = reinterpret_cast<Bytef *>(room.data() + at);
        stream_.avail_out = size;
        state_ = inflate(&stream_, Z_NO_FLUSH);
        return size - stream_.avail_out;
    }

    [[nodiscard]] bool is_fed() const { return stream_.avail_in > 0; }
    [[nodiscard]] bool is_damaged() const {
        return state_ != Z_OK && state_ != Z_STREAM_END && state_ != Z_BUF_ERROR;
    }
    [[nodiscard]] bool is_at_end() const { return state_ == Z_STREAM_END; }
    /// For the next member of a gzip file.
    void begin_again() {
        (void)inflateReset(&stream_);
        state_ = Z_OK;
    }

private:
    z_stream stream_{};
    int state_ = Z_OK;
};

} // namespace

bool is_gzip(std::string_view first_bytes) {
    return first_bytes.starts_with("\x1F\x8B");
}

std::string gunzipped(std::istream &in, const std::string &file) {
    const Where where{file, 0, "gzip"};
    Inflation inflation(kGzipWindow);
    std::string content;
    std::string block(1U << 16U, '\0');
    std::string room(1U << 18U, '\0');
    while (in.read(block.data(), static_cast<std::streamsize>(block.size())) || in.gcount() > 0) {
        inflation.feed({block.data(), static_cast<std::size_t>(in.gcount())});
        while (true) {
            if (inflation.is_at_end() && inflation.is_fed()) {
                inflation.begin_again();
            }
            const std::size_t size = inflation.drain(room, 0);
            content.append(room, 0, size);
            if (inflation.is_damaged()) {
                throw InputError(where, "damaged data behind " + counted(content.size(), "byte"),
                                 "a whole gzip file");
            }
            if (content.size() > kLargestGunzipped) {
                throw InputError(where, "more than 1 GiB", "a file of at most 1 GiB");
            }
            if (size < room.size() && !inflation.is_fed()) {
                break;
            }
        }
    }
    if (!inflation.is_at_end()) {
        throw InputError(where, "a file that is cut off", "a whole gzip file");
    }
    return content;
}

std::string start_of_gunzipped(std::string_view first_bytes, std::size_t most) {
    Inflation inflation(kGzipWindow);
    inflation.feed(first_bytes);
    std::string room(most, '\0');
    room.resize(inflation.drain(room, 0));
    return room;
}

std::string inflated(std::string_view bytes, std::size_t size, const Where &where) {
    if (bytes.size() > std::numeric_limits<uInt>::max() ||
        size >= std::numeric_limits<uInt>::max()) {
        throw InputError(where, "an array of more than 4 GiB", "a smaller one");
    }
    Inflation inflation(kZlibWindow);
    inflation.feed(bytes);
    std::string room(size + 1, '\0'); // the byte behind shows whether there is more
    std::size_t filled = 0;
    while (!inflation.is_at_end() && filled < room.size()) {
        const std::size_t more = inflation.drain(room, filled);
        filled += more;
        if (inflation.is_damaged()) {
            throw InputError(where, "damaged compressed data", "data compressed with zlib");
        }
        if (more == 0) {
            break;
        }
    }
    if (filled != size || !inflation.is_at_end()) {
        throw InputError(
            where,
            filled > size   ? fmt::format("more than {} when decompressed", counted(size, "byte"))
            : filled < size ? fmt::format("{} when decompressed", counted(filled, "byte"))
                            : "compressed data that are cut off",
            fmt::format("the {} that the array should have", counted(size, "byte")));
    }
    room.resize(size);
    return room;
}

} // namespace cospot

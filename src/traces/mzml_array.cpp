#include "traces/mzml_array.h"

#include "shared/text.h"
#include "traces/inflate.h"
#include "traces/trace_points.h"

#include <fmt/format.h>
#include <sodium.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <utility>

namespace cospot {

namespace {

/// What an accession says of the array (psims).
struct ArrayTerm {
    std::string_view accession;
    MzmlArray::Holds holds;
};

constexpr std::array kArrayTerms{
    ArrayTerm{"MS:1000595", MzmlArray::Holds::time},
    ArrayTerm{"MS:1000515", MzmlArray::Holds::signal},
    ArrayTerm{"MS:1000617", MzmlArray::Holds::wavelength},
    ArrayTerm{"MS:1000820", MzmlArray::Holds::pump}, // flow rate
    ArrayTerm{"MS:1000821", MzmlArray::Holds::pump}, // pressure
    ArrayTerm{"MS:1000822", MzmlArray::Holds::pump}, // temperature
};

/// Compressions that would need another library or lose digits (psims).
constexpr std::array<std::pair<std::string_view, std::string_view>, 10> kUnreadCompressions{{
    {"MS:1002312", "Numpress"},
    {"MS:1002313", "Numpress"},
    {"MS:1002314", "Numpress"},
    {"MS:1002746", "Numpress"},
    {"MS:1002747", "Numpress"},
    {"MS:1002748", "Numpress"},
    {"MS:1003780", "zstd"},
    {"MS:1003088", "truncated and zlib"},
    {"MS:1003089", "truncated, as differences, and zlib"},
    {"MS:1003090", "truncated, linearly predicted, and zlib"},
}};

constexpr const char *kUncompressed = "an array that is not compressed, or with zlib (convert the "
                                      "file again with one of these)";

bool is_base64_blank(char c) {
    return c == ' ' || c == '\t' || c == '\r' || c == '\n';
}

/// Unsigned number of N bytes, little-endian.
template <std::size_t N> std::uint64_t little_endian(const char *bytes) {
    std::uint64_t value = 0;
    for (std::size_t i = N; i-- > 0;) {
        value = (value << 8U) | static_cast<unsigned char>(bytes[i]);
    }
    return value;
}

} // namespace

std::string unit_of(const MzmlParam &param) {
    if (param.unit_accession == "UO:0000010") { // the names have other forms in some files
        return "second";
    }
    if (param.unit_accession == "UO:0000031") {
        return "minute";
    }
    return param.unit_name.empty() ? param.unit_accession : param.unit_name;
}

MzmlArray::MzmlArray(std::size_t length, Where where) : length_(length), where_(std::move(where)) {
    check_count(length, where_);
}

void MzmlArray::take(const MzmlParam &param) {
    const std::string_view accession = param.accession;
    for (const ArrayTerm &term : kArrayTerms) {
        if (term.accession == accession) {
            holds_ = term.holds;
            unit_ = unit_of(param);
        }
    }
    for (const auto &[unread, name] : kUnreadCompressions) {
        if (unread == accession) {
            refused_ = name;
        }
    }
    if (accession == "MS:1000574" || accession == "MS:1000576") {
        is_compressed_ = accession == "MS:1000574";
    } else if (accession == "MS:1000519") {
        number_ = Number::int32;
    } else if (accession == "MS:1000522") {
        number_ = Number::int64;
    } else if (accession == "MS:1000521") {
        number_ = Number::float32;
    } else if (accession == "MS:1000523") {
        number_ = Number::float64;
    }
}

void MzmlArray::append(std::string_view base64) {
    // Of what it does not compress, zlib makes 5 bytes more a block of 16 kB or less, and some.
    const std::size_t most_bytes = 8 * length_ + length_ / 32 + 1024;
    const std::size_t most = most_bytes / 3 * 4 + 4;
    for (const char c : base64) {
        if (!is_base64_blank(c)) {
            base64_ += c;
        }
    }
    if (base64_.size() > most) {
        throw InputError(where_, "more data than the declared length needs",
                         counted(length_, "value"));
    }
}

std::string MzmlArray::bytes() const {
    if (!refused_.empty()) {
        throw InputError(where_, "an array compressed with " + refused_, kUncompressed);
    }
    if (!is_compressed_) {
        throw InputError(where_, "an array that does not say how it is compressed", kUncompressed);
    }
    std::string bytes(base64_.size() / 4 * 3 + 3, '\0');
    std::size_t size = 0;
    const char *end = nullptr;
    const int failed = sodium_base642bin(reinterpret_cast<unsigned char *>(bytes.data()),
                                         bytes.size(), base64_.data(), base64_.size(), nullptr,
                                         &size, &end, sodium_base64_VARIANT_ORIGINAL);
    if (failed != 0 || end != base64_.data() + base64_.size()) {
        throw InputError(where_, "text that is no base64", "binary data in base64");
    }
    bytes.resize(size);
    return bytes;
}

std::vector<double> MzmlArray::values() const {
    std::string raw = bytes();
    if (number_ == Number::none) {
        throw InputError(where_, "an array that does not say which numbers it holds",
                         "32-bit or 64-bit numbers");
    }
    const std::size_t width = number_ == Number::int32 || number_ == Number::float32 ? 4 : 8;
    if (*is_compressed_) {
        raw = inflated(raw, length_ * width, where_);
    }
    if (raw.size() != length_ * width) {
        throw InputError(
            where_, counted(raw.size(), "byte"),
            fmt::format("{} for {}", counted(length_ * width, "byte"), counted(length_, "value")));
    }
    std::vector<double> values(length_);
    for (std::size_t i = 0; i < length_; ++i) {
        const char *at = raw.data() + i * width;
        switch (number_) {
        case Number::int32:
            values[i] = static_cast<std::int32_t>(little_endian<4>(at));
            break;
        case Number::int64:
            values[i] = static_cast<double>(static_cast<std::int64_t>(little_endian<8>(at)));
            break;
        case Number::float32:
            values[i] = std::bit_cast<float>(static_cast<std::uint32_t>(little_endian<4>(at)));
            break;
        default:
            values[i] = std::bit_cast<double>(little_endian<8>(at));
        }
    }
    return values;
}

} // namespace cospot

#include "traces/netcdf_header.h"

#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <limits>
#include <optional>
#include <utility>

namespace cospot {

namespace {

constexpr std::uint64_t kGreatest = std::numeric_limits<std::uint64_t>::max();
constexpr std::uint64_t kAlignment = 4;

std::uint64_t bounded_sum(std::uint64_t a, std::uint64_t b) {
    return a > kGreatest - b ? kGreatest : a + b;
}

std::uint64_t padded_size(std::uint64_t size) {
    return bounded_sum(size, (kAlignment - size % kAlignment) % kAlignment);
}

/// An unsigned number of `width` bytes, big-endian.
std::uint64_t big_endian(const char *bytes, std::size_t width) {
    std::uint64_t value = 0;
    for (std::size_t i = 0; i < width; ++i) {
        value = (value << 8U) | static_cast<unsigned char>(bytes[i]);
    }
    return value;
}

struct Dimension {
    std::string name;
    std::uint64_t length = 0; ///< 0: unlimited
};

/// Goes through the header from its first byte to its last.
class HeaderReader {
public:
    HeaderReader(std::string_view bytes, std::uint64_t file_size, const std::string &file)
        : bytes_(bytes), file_size_(file_size), file_(&file) {}

    NetcdfHeader read() {
        read_magic();
        records_ = next(is_wide_ ? 8 : 4);
        const std::uint64_t streaming = is_wide_ ? kGreatest : 0xFFFFFFFFU;
        const bool is_streaming = records_ == streaming; // never closed: counted from the size
        constexpr std::uint64_t dimension_tag = 0x0A;
        constexpr std::uint64_t variable_tag = 0x0B;
        for (std::uint64_t left = list_length(dimension_tag); left > 0; --left) {
            read_dimension();
        }
        NetcdfHeader header;
        header.attributes = attributes();
        for (std::uint64_t left = list_length(variable_tag); left > 0; --left) {
            header.variables.push_back(variable());
        }
        header.record_size = record_size(header.variables);
        if (is_streaming) {
            records_ = records_in_file(header);
        }
        for (NetcdfVariable &each : header.variables) {
            if (each.is_of_records) {
                each.shape.front() = records_;
            }
        }
        return header;
    }

private:
    [[noreturn]] void refuse(const std::string &found, const std::string &expected) const {
        throw InputError({*file_, 0, "header"}, fmt::format("{} at byte {}", found, at_), expected);
    }

    void need(std::uint64_t count) const {
        if (count <= bytes_.size() - at_) {
            return;
        }
        if (bytes_.size() < file_size_) {
            refuse("a header of more than 16 MiB", "a netCDF file with a shorter header");
        }
        refuse("the end of the file inside the header", "a whole netCDF file");
    }

    std::uint64_t next(std::size_t width) {
        need(width);
        const std::uint64_t value = big_endian(bytes_.data() + at_, width);
        at_ += width;
        return value;
    }

    /// A count or length: of 4 bytes, and of 8 in CDF-5.
    std::uint64_t next_count() { return next(is_wide_ ? 8 : 4); }

    std::string_view next_bytes(std::uint64_t count) {
        need(padded_size(count));
        const std::string_view text = bytes_.substr(at_, count);
        at_ += padded_size(count);
        return text;
    }

    void read_magic() {
        const std::string_view magic = next_bytes(4);
        const char version = magic[3];
        if (!magic.starts_with("CDF") || (version != 1 && version != 2 && version != 5)) {
            at_ = 0;
            refuse("other bytes than those of netCDF classic", "CDF with version 1, 2 or 5");
        }
        is_wide_ = version == 5;
        offset_width_ = version == 1 ? 4 : 8;
    }

    /// How many entries follow; none where the list is absent.
    std::uint64_t list_length(std::uint64_t tag) {
        const std::uint64_t found = next(4);
        const std::uint64_t count = next_count();
        if (found != tag && (found != 0 || count != 0)) {
            refuse(fmt::format("the list tag {}", found), fmt::format("{} or an absent list", tag));
        }
        return count; // each entry takes bytes, so that a false count ends at the end of them
    }

    void read_dimension() {
        Dimension dimension;
        dimension.name = next_bytes(next_count());
        dimension.length = next_count();
        if (dimension.length == 0 && std::exchange(has_unlimited_, true)) {
            refuse("a second unlimited dimension", "one at the most");
        }
        dimensions_.push_back(std::move(dimension));
    }

    NetcdfType next_type() {
        const std::uint64_t code = next(4);
        const auto last = is_wide_ ? NetcdfType::uint64 : NetcdfType::float64;
        if (code == 0 || code > static_cast<std::uint64_t>(last)) {
            refuse(fmt::format("the type {}", code), "a type of netCDF classic");
        }
        return static_cast<NetcdfType>(code);
    }

    std::vector<NetcdfAttribute> attributes() {
        constexpr std::uint64_t tag = 0x0C;
        std::vector<NetcdfAttribute> list;
        for (std::uint64_t left = list_length(tag); left > 0; --left) {
            NetcdfAttribute attribute;
            attribute.name = next_bytes(next_count());
            const NetcdfType type = next_type();
            const std::uint64_t count = next_count();
            const std::size_t width = netcdf_width(type);
            const std::string_view bytes = next_bytes(bounded_product(count, width));
            if (type == NetcdfType::text) {
                attribute.text = bytes;
            } else {
                for (std::size_t i = 0; i < count; ++i) {
                    attribute.numbers.push_back(netcdf_number(type, bytes.data() + i * width));
                }
            }
            list.push_back(std::move(attribute));
        }
        return list;
    }

    NetcdfVariable variable() {
        NetcdfVariable variable;
        variable.name = next_bytes(next_count());
        for (std::uint64_t left = next_count(); left > 0; --left) {
            const std::uint64_t id = next_count();
            if (id >= dimensions_.size()) {
                refuse(fmt::format("the dimension {}", id),
                       fmt::format("one of the {}", counted(dimensions_.size(), "dimension")));
            }
            if (dimensions_[id].length == 0) {
                if (!variable.shape.empty()) {
                    refuse("the unlimited dimension behind another one", "it first");
                }
                variable.is_of_records = true;
            }
            variable.shape.push_back(dimensions_[id].length);
        }
        variable.attributes = attributes();
        variable.type = next_type();
        (void)next_count(); // its size, which follows from the shape and may not fit here
        variable.begin = next(offset_width_);
        return variable;
    }

    /// Bytes of one record of a variable, without what fills it up.
    static std::uint64_t size_in_record(const NetcdfVariable &variable) {
        std::uint64_t size = netcdf_width(variable.type);
        for (std::size_t i = 1; i < variable.shape.size(); ++i) {
            size = bounded_product(size, variable.shape[i]);
        }
        return size;
    }

    /// The records of all variables lie one behind the other; one variable alone is not filled up.
    static std::uint64_t record_size(const std::vector<NetcdfVariable> &variables) {
        std::uint64_t padded_sum = 0;
        std::uint64_t last = 0;
        std::size_t count = 0;
        for (const NetcdfVariable &variable : variables) {
            if (variable.is_of_records) {
                last = size_in_record(variable);
                padded_sum = bounded_sum(padded_sum, padded_size(last));
                ++count;
            }
        }
        return count == 1 ? last : padded_sum;
    }

    [[nodiscard]] std::uint64_t records_in_file(const NetcdfHeader &header) const {
        std::uint64_t first = file_size_;
        for (const NetcdfVariable &variable : header.variables) {
            if (variable.is_of_records) {
                first = std::min(first, variable.begin);
            }
        }
        return header.record_size == 0 ? 0 : (file_size_ - first) / header.record_size;
    }

    std::string_view bytes_;
    std::uint64_t file_size_;
    const std::string *file_;
    std::size_t at_ = 0;
    bool is_wide_ = false; ///< CDF-5
    std::size_t offset_width_ = 4;
    std::uint64_t records_ = 0;
    bool has_unlimited_ = false;
    std::vector<Dimension> dimensions_;
};

} // namespace

NetcdfHeader read_netcdf_header(std::string_view bytes, std::uint64_t file_size,
                                const std::string &file) {
    return HeaderReader(bytes, file_size, file).read();
}

std::size_t netcdf_width(NetcdfType type) {
    switch (type) {
    case NetcdfType::int8:
    case NetcdfType::text:
    case NetcdfType::uint8:
        return 1;
    case NetcdfType::int16:
    case NetcdfType::uint16:
        return 2;
    case NetcdfType::int32:
    case NetcdfType::float32:
    case NetcdfType::uint32:
        return 4;
    default:
        return 8;
    }
}

double netcdf_number(NetcdfType type, const char *bytes) {
    const std::uint64_t bits = big_endian(bytes, netcdf_width(type));
    switch (type) {
    case NetcdfType::int8:
        return static_cast<std::int8_t>(bits);
    case NetcdfType::int16:
        return static_cast<std::int16_t>(bits);
    case NetcdfType::int32:
        return static_cast<std::int32_t>(bits);
    case NetcdfType::int64:
        return static_cast<double>(static_cast<std::int64_t>(bits));
    case NetcdfType::float32:
        return std::bit_cast<float>(static_cast<std::uint32_t>(bits));
    case NetcdfType::float64:
        return std::bit_cast<double>(bits);
    default:
        return static_cast<double>(bits);
    }
}

std::uint64_t bounded_product(std::uint64_t a, std::uint64_t b) {
    return b != 0 && a > kGreatest / b ? kGreatest : a * b;
}

} // namespace cospot

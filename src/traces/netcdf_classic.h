#pragma once

#include "shared/error.h"

#include <cstddef>
#include <cstdint>
#include <iosfwd>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// The external types of the format, by their codes; those behind float64 are of CDF-5 only.
enum class NetcdfType : std::uint32_t {
    int8 = 1,
    text,
    int16,
    int32,
    float32,
    float64,
    uint8,
    uint16,
    uint32,
    int64,
    uint64
};

struct NetcdfAttribute {
    std::string name{};
    std::string text{};            ///< of type text, all its bytes; else empty
    std::vector<double> numbers{}; ///< of any other type
};

struct NetcdfVariable {
    std::string name{};
    std::vector<std::uint64_t> shape{}; ///< lengths of its dimensions, the record dimension's too
    bool is_of_records = false;         ///< the first dimension is the unlimited one
    std::vector<NetcdfAttribute> attributes{};
    NetcdfType type = NetcdfType::int8;
    std::uint64_t begin = 0; ///< offset of its data in the file

    [[nodiscard]] const NetcdfAttribute *attribute(std::string_view attribute_name) const;
};

/// Reads netCDF classic files: CDF-1, CDF-2 (64-bit offsets) and CDF-5 (64-bit data), as The NetCDF
/// Classic Format Specification defines them (netcdf2011, from memory; OGC 10-092r3). The header is
/// read at once, data when asked for. What a header claims is never believed: nothing is read
/// outside the file, and no more memory is taken than the file or `most` allows. Throws InputError
/// for a header that is cut off, malformed or longer than 16 MiB, and for data outside the file.
class NetcdfClassic {
public:
    /// `in` has to be seekable and to outlive the reader.
    NetcdfClassic(std::istream &in, std::string file);

    /// Of the whole file; null where there is none.
    [[nodiscard]] const NetcdfAttribute *attribute(std::string_view name) const;
    [[nodiscard]] const NetcdfVariable *variable(std::string_view name) const;

    /// How many values a variable has; the greatest number where that would be even more.
    [[nodiscard]] static std::uint64_t count(const NetcdfVariable &variable);
    /// Its values, row by row, as double. Throws InputError for a variable of type text and where
    /// there are more than `most`.
    [[nodiscard]] std::vector<double> numbers(const NetcdfVariable &variable, std::size_t most);
    /// The texts along its last dimension, each with all its bytes; one where there is but one
    /// dimension. Throws InputError for a variable of another type and where there are more than
    /// `most` bytes.
    [[nodiscard]] std::vector<std::string> texts(const NetcdfVariable &variable, std::size_t most);

    [[nodiscard]] const std::string &file() const noexcept { return file_; }

private:
    [[nodiscard]] std::string bytes_of(const NetcdfVariable &variable, std::size_t most);
    [[nodiscard]] std::string bytes_at(std::uint64_t at, std::uint64_t size, const Where &where);

    std::istream *in_;
    std::string file_;
    std::uint64_t size_ = 0; ///< of the file, bytes
    std::vector<NetcdfAttribute> attributes_;
    std::vector<NetcdfVariable> variables_;
    std::uint64_t record_size_ = 0; ///< bytes from a record to the next
};

} // namespace cospot

#pragma once

#include "traces/netcdf_classic.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// The longest header that is read.
inline constexpr std::size_t kLongestNetcdfHeader = 16U << 20U;

struct NetcdfHeader {
    std::vector<NetcdfAttribute> attributes{};
    std::vector<NetcdfVariable> variables{};
    std::uint64_t record_size = 0; ///< bytes from a record to the next
};

/// Reads a header out of the first bytes of a file of `file_size` bytes. Throws InputError where it
/// is malformed, does not end within `bytes`, or says that a dimension is unlimited twice.
[[nodiscard]] NetcdfHeader read_netcdf_header(std::string_view bytes, std::uint64_t file_size,
                                              const std::string &file);

/// Bytes that a value of the type takes in the file.
[[nodiscard]] std::size_t netcdf_width(NetcdfType type);

/// A value of any type but text from its bytes, big-endian.
[[nodiscard]] double netcdf_number(NetcdfType type, const char *bytes);

/// The product, or the greatest number where that is even more.
[[nodiscard]] std::uint64_t bounded_product(std::uint64_t a, std::uint64_t b);

} // namespace cospot

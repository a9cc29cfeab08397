#pragma once

#include "shared/error.h"

#include <cstddef>
#include <iosfwd>
#include <string>
#include <string_view>

namespace cospot {

/// Whether the bytes are the beginning of a gzip file (RFC 1952).
[[nodiscard]] bool is_gzip(std::string_view first_bytes);

/// The content of a gzip file, all its members. Throws InputError where it is damaged, cut off, or
/// longer than 1 GiB.
[[nodiscard]] std::string gunzipped(std::istream &in, const std::string &file);

/// The beginning of the content of a gzip file, at most `most` bytes, as far as `first_bytes` hold
/// it; empty where they are damaged.
[[nodiscard]] std::string start_of_gunzipped(std::string_view first_bytes, std::size_t most);

/// What zlib (RFC 1950) made of exactly `size` bytes. Throws InputError for damaged data and for
/// any other size; never takes more memory than that.
[[nodiscard]] std::string inflated(std::string_view bytes, std::size_t size, const Where &where);

} // namespace cospot

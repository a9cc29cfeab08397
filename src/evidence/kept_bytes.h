#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

namespace cospot {

/// Reads as another number where bytes are ordered differently.
inline constexpr std::uint64_t kOrderOfBytes = 0x0102030405060708;

using Fingerprint = std::array<unsigned char, 16>; ///< BLAKE2b

[[nodiscard]] Fingerprint fingerprint_of(std::string_view bytes);

/// `content` with the fingerprint of itself and of `origin` before it. The origin is whatever the
/// content follows from: of another origin it does not count.
[[nodiscard]] std::string sealed(std::string_view origin, std::string_view content);

/// The content of `sealed` bytes; none where they are damaged or of another origin.
[[nodiscard]] std::optional<std::string_view> unsealed(std::string_view origin,
                                                       std::string_view bytes);

/// Adds values as they lie in memory.
template <class T> void put(std::string &bytes, const T *first, std::size_t count) {
    static_assert(std::is_trivially_copyable_v<T>);
    bytes.append(reinterpret_cast<const char *>(first), count * sizeof(T)); // NOLINT: bytes of it
}

template <class T> void put(std::string &bytes, const T &value) {
    put(bytes, &value, 1);
}

/// How many follow, then they.
template <class T> void put_several(std::string &bytes, const std::vector<T> &values) {
    put(bytes, static_cast<std::uint64_t>(values.size()));
    put(bytes, values.data(), values.size());
}

/// Takes a value off the front of the bytes, which must be long enough.
template <class T> T take(std::string_view &bytes) {
    static_assert(std::is_trivially_copyable_v<T>);
    T value;
    std::memcpy(&value, bytes.data(), sizeof(T));
    bytes.remove_prefix(sizeof(T));
    return value;
}

template <class T> std::vector<T> take_several(std::string_view &bytes, std::size_t count) {
    std::vector<T> values(count);
    if (count > 0) {
        std::memcpy(values.data(), bytes.data(), count * sizeof(T));
        bytes.remove_prefix(count * sizeof(T));
    }
    return values;
}

/// What `put_several` added.
template <class T> std::vector<T> take_several(std::string_view &bytes) {
    return take_several<T>(bytes, take<std::uint64_t>(bytes));
}

} // namespace cospot

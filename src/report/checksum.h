#pragma once

#include <filesystem>
#include <string>
#include <string_view>

namespace cospot {

/// SHA-256 (FIPS 180-4) in lower-case hexadecimal, 64 digits.
[[nodiscard]] std::string sha256_hex(std::string_view content);

/// The same of a file, read in blocks. Throws InputError where it cannot be read.
[[nodiscard]] std::string sha256_of_file(const std::filesystem::path &file);

/// SHA-256 in Base64, as a Content-Security-Policy names an inline script.
[[nodiscard]] std::string sha256_base64(std::string_view content);

} // namespace cospot

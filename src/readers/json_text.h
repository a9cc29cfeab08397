#pragma once

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <string_view>

namespace cospot {

/// Parses JSON (RFC 8259). Throws InputError, with line and column, for malformed text, a number
/// that a double cannot hold, and brackets within brackets more than 16 deep, since what walks
/// through the result does so by recursion.
[[nodiscard]] nlohmann::json parse_json(std::string_view text, const std::string &file,
                                        const std::string &expected);

} // namespace cospot

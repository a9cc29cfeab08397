#pragma once

#include "shared/error.h"

#include <nlohmann/json_fwd.hpp>

#include <string>
#include <string_view>

namespace cospot {

/// Parses JSON (RFC 8259). Throws InputError, with line and column, for malformed text, a number
/// that a double cannot hold, and brackets within brackets more than 16 deep, since what walks
/// through the result does so by recursion.
[[nodiscard]] nlohmann::json parse_json(std::string_view text, const std::string &file,
                                        const std::string &expected);

/// Where a value stands in JSON that `parse_json` has read: its line, with the path such as
/// "identification[1].percent" as the column. An empty path is the whole; where nothing is at the
/// path, the line of the last part of it that is there.
[[nodiscard]] Where where_in_json(std::string_view text, const std::string &file,
                                  const std::string &path);

} // namespace cospot

#pragma once

#include "desk/http_types.h"
#include "document/json.h"

#include <string>
#include <string_view>

namespace cospot::desk {

/// A response with that text. No browser stores it, it is taken for nothing but what it says, and
/// its page may load nothing from elsewhere and run no script but the desk's own.
[[nodiscard]] Response response(http::status status, std::string_view type, std::string body);

[[nodiscard]] Response json_response(const Json &json, http::status status = http::status::ok);

/// {"error": what}.
[[nodiscard]] Response failure(http::status status, std::string_view what);

[[nodiscard]] Response not_found();

/// A body that has to be JSON. Throws InputError where it is none.
[[nodiscard]] Json parsed(const std::string &body);

[[nodiscard]] inline std::string_view text_of(boost::beast::string_view text) {
    return {text.data(), text.size()};
}

} // namespace cospot::desk

#include "desk/responses.h"

#include "shared/error.h"

#include <utility>

namespace cospot::desk {

Response response(http::status status, std::string_view type, std::string body) {
    Response answer(status, 11);
    answer.set(http::field::content_type, beast::string_view(type.data(), type.size()));
    answer.set(http::field::cache_control, "no-store");
    answer.set("X-Content-Type-Options", "nosniff");
    answer.set("Referrer-Policy", "no-referrer");
    answer.set("Cross-Origin-Opener-Policy", "same-origin");
    answer.set("Cross-Origin-Resource-Policy", "same-origin");
    answer.set(
        "Content-Security-Policy",
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; "
        "connect-src 'self'; frame-src 'self'; frame-ancestors 'self'; base-uri 'none'; "
        "form-action 'none'");
    answer.body() = std::move(body);
    return answer;
}

Response json_response(const Json &json, http::status status) {
    return response(status, "application/json; charset=utf-8", json_line(json));
}

Response failure(http::status status, std::string_view what) {
    return json_response({{"error", what}}, status);
}

Response not_found() {
    return failure(http::status::not_found, "There is nothing under this address.");
}

Json parsed(const std::string &body) {
    Json json = Json::parse(body, nullptr, false);
    if (json.is_discarded()) {
        throw InputError({"request", 0, ""}, "a body that is no JSON", "JSON");
    }
    return json;
}

} // namespace cospot::desk

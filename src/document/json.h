#pragma once

#include "shared/text.h"

#include <nlohmann/json.hpp>

#include <optional>
#include <string>

namespace cospot {

/// Fields stay in the order in which they were set.
using Json = nlohmann::ordered_json;

/// One line of JSON Lines, without its end; what is no UTF-8 is replaced, and what would not be
/// seen is escaped.
[[nodiscard]] inline std::string json_line(const Json &json) {
    return json_without_hidden(json.dump(-1, ' ', false, Json::error_handler_t::replace));
}

template <typename Value> [[nodiscard]] Json or_null(const std::optional<Value> &value) {
    return value ? Json(*value) : Json(nullptr);
}

/// Sets a field only where there is a value.
inline void set_where_known(Json &json, const char *name, const std::optional<double> &value) {
    if (value) {
        json[name] = *value;
    }
}

/// One line for each object of an array.
[[nodiscard]] inline std::string json_lines(const Json &objects) {
    std::string text;
    for (const Json &object : objects) {
        text += json_line(object) + '\n';
    }
    return text;
}

} // namespace cospot

#pragma once

#include "document/html.h"
#include "document/json.h"

#include <fmt/format.h>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

// Fields that a JSON object has.

[[nodiscard]] inline std::string text_in(const Json &object, const char *field) {
    return object.at(field).get<std::string>();
}

[[nodiscard]] inline std::vector<std::string> texts_in(const Json &object, const char *field) {
    return object.at(field).get<std::vector<std::string>>();
}

[[nodiscard]] inline double number_in(const Json &object, const char *field) {
    return object.at(field).get<double>();
}

[[nodiscard]] inline std::optional<double> number_or_none_in(const Json &object,
                                                             const char *field) {
    const Json &value = object.at(field);
    return value.is_null() ? std::nullopt : std::optional(value.get<double>());
}

/// A number of a JSON object as a cell that sorts by it; null is an empty cell. `format` is that of
/// fmt, e.g. "{:.2f}".
inline html::Cell number_cell(const Json &value, std::string_view format) {
    if (value.is_null()) {
        return {};
    }
    return {fmt::format(fmt::runtime(format), value.get<double>()), value.get<double>()};
}

} // namespace cospot

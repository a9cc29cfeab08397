#include "shared/error.h"

#include <fmt/format.h>

#include <utility>

namespace cospot {

namespace {

std::string message(const Where &where, const std::string &found, const std::string &expected) {
    const std::string place = to_string(where);
    return fmt::format("{}{}found {}; expected {}", place, place.empty() ? "" : ": ", found,
                       expected);
}

} // namespace

InputError::InputError(Where where, std::string found, std::string expected)
    : std::runtime_error(message(where, found, expected)), where_(std::move(where)),
      found_(std::move(found)), expected_(std::move(expected)) {}

std::string to_string(const Where &where) {
    std::string text = where.file;
    if (where.line > 0) {
        text += fmt::format("{}{}", text.empty() ? "line " : ":", where.line);
    }
    if (!where.column.empty()) {
        text += fmt::format("{}column {}", text.empty() ? "" : ", ", where.column);
    }
    return text;
}

InputError bad_usage(std::string found, std::string expected) {
    return {{"command line", 0, ""}, std::move(found), std::move(expected)};
}

} // namespace cospot

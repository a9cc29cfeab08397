#include "shared/number.h"

#include "shared/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <system_error>

namespace cospot {

std::optional<double> number_from_text(std::string_view text) {
    text = trimmed(text);
    if (text.starts_with('+') && text.size() > 1 && text[1] != '-') {
        text.remove_prefix(1);
    }
    double value = 0.0;
    const char *end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, value);
    if (error != std::errc() || stop != end || !std::isfinite(value)) {
        return std::nullopt;
    }
    return value;
}

double parse_number(std::string_view text, const Where &where, const std::string &expected) {
    if (const auto value = number_from_text(text)) {
        return *value;
    }
    if (trimmed(text).empty()) {
        throw InputError(where, "nothing", expected);
    }
    std::string with_point(text);
    std::replace(with_point.begin(), with_point.end(), ',', '.');
    if (with_point != text && number_from_text(with_point)) {
        throw InputError(where, in_quotes(text) + " with a decimal comma",
                         expected + ", written with a decimal point");
    }
    throw InputError(where, in_quotes(text), expected);
}

std::string exact_text(double value) {
    return fmt::format("{}", value);
}

} // namespace cospot

#include "readers/json_text.h"

#include "shared/error.h"

#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace cospot {

namespace {

using Json = nlohmann::json;

constexpr std::size_t kDeepest = 16;

/// Line and column, from 1, of the byte at an offset.
Where place_of(std::size_t offset, std::string_view text, const std::string &file) {
    const std::string_view before = text.substr(0, std::min(offset, text.size()));
    const auto line = std::count(before.begin(), before.end(), '\n') + 1;
    const std::size_t column = before.size() - (before.rfind('\n') + 1) + 1; // npos + 1 is 0
    return {file, static_cast<std::size_t>(line), fmt::format("{}", column)};
}

/// Where a bracket opens that lies too deep within others, or npos.
std::size_t too_deep(std::string_view text) {
    std::size_t depth = 0;
    bool in_string = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (in_string) {
            i += c == '\\' ? 1 : 0;
            in_string = c != '"';
        } else if (c == '"') {
            in_string = true;
        } else if ((c == '[' || c == '{') && ++depth > kDeepest) {
            return i;
        } else if ((c == ']' || c == '}') && depth > 0) {
            --depth;
        }
    }
    return std::string_view::npos;
}

/// Keeps nothing but where and why parsing ended; an exception would not say where a number is too
/// large.
class FaultFinder : public nlohmann::json_sax<Json> {
public:
    bool null() override { return true; }
    bool boolean(bool) override { return true; }
    bool number_integer(number_integer_t) override { return true; }
    bool number_unsigned(number_unsigned_t) override { return true; }
    bool number_float(number_float_t, const string_t &) override { return true; }
    bool string(string_t &) override { return true; }
    bool binary(binary_t &) override { return true; }
    bool start_object(std::size_t) override { return true; }
    bool key(string_t &) override { return true; }
    bool end_object() override { return true; }
    bool start_array(std::size_t) override { return true; }
    bool end_array() override { return true; }
    bool parse_error(std::size_t position, const std::string &,
                     const nlohmann::detail::exception &error) override {
        end_ = position;
        is_number_ = dynamic_cast<const Json::out_of_range *>(&error) != nullptr;
        return false;
    }

    /// Bytes read up to the fault.
    [[nodiscard]] std::size_t end() const { return end_; }
    [[nodiscard]] bool is_number() const { return is_number_; }

private:
    std::size_t end_ = 0;
    bool is_number_ = false;
};

} // namespace

Json parse_json(std::string_view text, const std::string &file, const std::string &expected) {
    if (const std::size_t bracket = too_deep(text); bracket != std::string_view::npos) {
        throw InputError(place_of(bracket, text, file),
                         fmt::format("brackets more than {} deep", kDeepest), expected);
    }
    FaultFinder finder;
    if (!Json::sax_parse(text, &finder)) {
        const std::size_t last = std::max<std::size_t>(1, finder.end()) - 1;
        throw InputError(place_of(last, text, file),
                         finder.is_number() ? "a number that is too large" : "malformed JSON",
                         expected);
    }
    return Json::parse(text);
}

} // namespace cospot

#include "readers/json_text.h"

#include "shared/error.h"

#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string>
#include <vector>

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
    bool start_object(std::size_t) override {
        names_.emplace_back();
        return true;
    }
    bool key(string_t &name) override {
        if (!names_.back().insert(name).second && repeated_.empty()) {
            repeated_ = name;
        }
        return true;
    }
    bool end_object() override {
        names_.pop_back();
        return true;
    }
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
    /// A name that one object has twice; empty where there is none.
    [[nodiscard]] const std::string &repeated() const { return repeated_; }

private:
    std::vector<std::set<std::string>> names_; ///< of the objects that are open
    std::string repeated_;
    std::size_t end_ = 0;
    bool is_number_ = false;
};

/// Goes through sound JSON and tells the path of each value in turn.
class PathFinder {
public:
    explicit PathFinder(std::string_view text) : text_(text) {}

    /// The offset of the value at the path, or of the closest part of the path before it.
    [[nodiscard]] std::size_t find(const std::string &path) {
        while (at_ < text_.size() && best_path_ != path) {
            read_token(path);
        }
        return best_;
    }

private:
    struct Level {
        bool is_array;
        std::string path;      ///< of the array or object itself
        std::size_t index = 0; ///< of the next value of an array
        std::string key{};     ///< of the next value of an object
        bool has_key = false;
    };

    [[nodiscard]] std::string path_of_next() const {
        if (levels_.empty()) {
            return "";
        }
        const Level &level = levels_.back();
        return level.is_array       ? fmt::format("{}[{}]", level.path, level.index)
               : level.path.empty() ? level.key
                                    : level.path + "." + level.key;
    }

    void begin_value(const std::string &wanted) {
        const std::string here = path_of_next();
        if (wanted.starts_with(here)) {
            best_ = at_;
            best_path_ = here;
        }
    }

    void end_value() {
        if (!levels_.empty()) {
            ++levels_.back().index;
            levels_.back().has_key = false;
        }
    }

    std::string_view take_string() {
        const std::size_t first = at_;
        for (++at_; text_[at_] != '"'; ++at_) {
            at_ += text_[at_] == '\\' ? 1 : 0;
        }
        ++at_;
        return text_.substr(first + 1, at_ - first - 2);
    }

    void read_token(const std::string &wanted) {
        const char c = text_[at_];
        if (c == '"' && !levels_.empty() && !levels_.back().is_array && !levels_.back().has_key) {
            levels_.back().key = take_string();
            levels_.back().has_key = true;
        } else if (c == '{' || c == '[') {
            begin_value(wanted);
            levels_.push_back({c == '[', path_of_next()});
            ++at_;
        } else if (c == '}' || c == ']') {
            levels_.pop_back();
            end_value();
            ++at_;
        } else if (c == '"') {
            begin_value(wanted);
            (void)take_string();
            end_value();
        } else if (std::string_view(" \t\r\n,:").find(c) != std::string_view::npos) {
            ++at_;
        } else {
            begin_value(wanted);
            at_ = std::min(text_.find_first_of(" \t\r\n,]}", at_), text_.size());
            end_value();
        }
    }

    std::string_view text_;
    std::size_t at_ = 0;
    std::vector<Level> levels_;
    std::size_t best_ = 0;
    std::string best_path_ = "nothing yet";
};

} // namespace

Where where_in_json(std::string_view text, const std::string &file, const std::string &path) {
    Where where = place_of(PathFinder(text).find(path), text, file);
    where.column = path;
    return where;
}

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
    if (!finder.repeated().empty()) {
        const std::string quoted = Json(finder.repeated()).dump();
        throw InputError(place_of(text.rfind(quoted), text, file), quoted + " again",
                         "each field of an object once");
    }
    return Json::parse(text);
}

} // namespace cospot

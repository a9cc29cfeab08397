#include "shared/date.h"

#include "shared/text.h"

#include <fmt/chrono.h>
#include <fmt/format.h>

#include <charconv>
#include <chrono>
#include <ctime>
#include <optional>

namespace cospot {

namespace {

/// The number that `text` spells with exactly `digits` digits.
std::optional<unsigned> digits_of(std::string_view text, std::size_t digits) {
    unsigned value = 0;
    const char *end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, value);
    if (text.size() != digits || error != std::errc() || stop != end) {
        return std::nullopt;
    }
    return value;
}

/// The number of a month by the first three letters of its English name, or 0.
unsigned month_of(std::string_view name) {
    constexpr std::string_view months = "janfebmaraprmayjunjulaugsepoctnovdec";
    const std::size_t at = name.size() == 3 ? months.find(lower_ascii(name)) : std::string::npos;
    return at == std::string::npos || at % 3 != 0 ? 0 : static_cast<unsigned>(at / 3 + 1);
}

bool is_time_of_day(std::string_view text) {
    for (const std::string_view zone : {"Z", "am", "AM", "pm", "PM"}) {
        if (text.ends_with(zone)) {
            text = trimmed(text.substr(0, text.size() - zone.size()));
            break;
        }
    }
    if (const std::size_t zone = text.find_first_of("+-"); zone != std::string_view::npos) {
        text = text.substr(0, zone);
    }
    if (const std::size_t fraction = text.find_first_of(".,"); fraction != std::string_view::npos) {
        if (text.find_first_not_of("0123456789", fraction + 1) != std::string_view::npos) {
            return false;
        }
        text = text.substr(0, fraction);
    }
    const std::size_t colon = text.find(':');
    const auto hour = digits_of(text.substr(0, colon), colon == 1 ? 1 : 2);
    const bool has_seconds = colon != std::string_view::npos && text.size() == colon + 6;
    if (!hour || *hour > 24 || colon == std::string_view::npos ||
        (text.size() != colon + 3 && !has_seconds) || (has_seconds && text[colon + 3] != ':')) {
        return false;
    }
    const auto minute = digits_of(text.substr(colon + 1, 2), 2);
    const auto second = has_seconds ? digits_of(text.substr(colon + 4), 2) : 0U;
    return minute && *minute < 60 && second && *second <= 60; // 60: a leap second
}

/// The text without the time of day that follows a blank or, as in ISO 8601, a T.
std::string_view without_time_of_day(std::string_view text) {
    const std::size_t colon = text.find(':');
    const std::size_t before =
        colon == std::string_view::npos ? colon : text.substr(0, colon).find_last_of(" T");
    return before != std::string_view::npos && is_time_of_day(trimmed(text.substr(before + 1)))
               ? trimmed(text.substr(0, before))
               : text;
}

/// A date with its parts in another order, or with other signs between them, as ISO 8601 has it;
/// other texts as they are. With slashes only where the year is first: else it cannot be told
/// whether the month or the day is.
std::string as_iso_8601(std::string_view text) {
    const std::size_t first = text.find_first_of("./- ");
    const std::size_t second =
        first == std::string_view::npos ? first : text.find(text[first], first + 1);
    if (second == std::string_view::npos) {
        return std::string(text);
    }
    const std::string_view parts[]{
        text.substr(0, first), text.substr(first + 1, second - first - 1), text.substr(second + 1)};
    const auto number = [](std::string_view part) {
        return digits_of(part, part.size() == 1 ? 1 : 2);
    };
    const auto iso = [](std::string_view year, std::optional<unsigned> month,
                        std::optional<unsigned> day) {
        return fmt::format("{}-{:02}-{:02}", year, month.value_or(0), day.value_or(0));
    };
    if (const unsigned month = month_of(parts[1]); month > 0 && text[first] != '/') {
        return iso(parts[2], month, number(parts[0]));
    }
    if (text[first] == '.') {
        return iso(parts[2], number(parts[1]), number(parts[0]));
    }
    return text[first] == '/' && parts[0].size() == 4
               ? iso(parts[0], number(parts[1]), number(parts[2]))
               : std::string(text);
}

bool is_date(std::string_view text) {
    const bool has_month = text.size() >= 7;
    const bool has_day = text.size() == 10;
    if ((text.size() != 4 && !has_month) || (text.size() > 7 && !has_day) ||
        (has_month && text[4] != '-') || (has_day && text[7] != '-')) {
        return false;
    }
    const auto year = digits_of(text.substr(0, 4), 4);
    const auto month = has_month ? digits_of(text.substr(5, 2), 2) : 1U;
    const auto day = has_day ? digits_of(text.substr(8, 2), 2) : 1U;
    if (!year || !month || !day) {
        return false;
    }
    return std::chrono::year_month_day(std::chrono::year(static_cast<int>(*year)),
                                       std::chrono::month(*month), std::chrono::day(*day))
        .ok();
}

} // namespace

std::string parse_date(std::string_view text, const Where &where) {
    const std::string date = as_iso_8601(without_time_of_day(text));
    if (!is_date(date)) {
        throw InputError(
            where, in_quotes(text),
            "a date as YYYY-MM-DD, DD.MM.YYYY or 1 Dec 2026 (or YYYY-MM, or YYYY; with "
            "slashes only where the year stands first)");
    }
    return date;
}

bool is_day(std::string_view date) {
    constexpr std::size_t to_the_day = 10;
    return date.size() == to_the_day;
}

std::string parse_past_date(std::string_view text, const Where &where) {
    std::string date = parse_date(text, where);
    const std::time_t tomorrow = std::time(nullptr) + std::time_t{24} * 60 * 60;
    const std::string last = fmt::format("{:%Y-%m-%d}", fmt::gmtime(tomorrow));
    if (date < "1900" || date > last.substr(0, date.size())) {
        throw InputError(where, in_quotes(text), "a date from 1900 to today");
    }
    return date;
}

std::optional<double> decimal_year(std::string_view date) {
    if (!is_date(date)) {
        return std::nullopt;
    }
    const auto part = [&](std::size_t first, std::size_t digits, double middle) {
        return date.size() >= first + digits ? *digits_of(date.substr(first, digits), digits) - 1.0
                                             : middle;
    };
    const double month = part(5, 2, 5.5);
    const double day = date.size() == 4 ? 15.2 : part(8, 2, 15.2);
    return *digits_of(date.substr(0, 4), 4) + (month + day / 31.0) / 12.0;
}

std::string utc_now() {
    return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(std::time(nullptr)));
}

} // namespace cospot

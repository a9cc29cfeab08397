#include "traces/number_row.h"

#include "shared/number.h"
#include "shared/text.h"

#include <optional>

namespace cospot {

namespace {

constexpr char kBlanks = ' ';

/// Calls `take` with each field; ends early where it returns false, and then returns false.
template <typename Take> bool for_each_field(std::string_view line, char divider, Take take) {
    std::size_t first = 0;
    bool is_quoted = false;
    for (std::size_t i = 0; i <= line.size(); ++i) {
        if (i < line.size() && line[i] == '"') {
            is_quoted = !is_quoted;
        }
        if (i < line.size() && (line[i] != divider || is_quoted)) {
            continue;
        }
        std::string_view field = trimmed(line.substr(first, i - first));
        first = i + 1;
        if (field.empty() && divider == kBlanks) {
            continue; // many blanks divide as one does
        }
        if (field.size() >= 2 && field.front() == '"' && field.back() == '"') {
            field = trimmed(field.substr(1, field.size() - 2));
        }
        if (!take(field)) {
            return false;
        }
    }
    return true;
}

/// The line without dividers and blanks at its end: empty fields there say nothing.
std::string_view without_empty_end(std::string_view line, char divider) {
    line = trimmed(line);
    while (!line.empty() && line.back() == divider) {
        line.remove_suffix(1);
        line = trimmed(line);
    }
    return line;
}

/// A number with a point or with one comma as its decimal sign.
std::optional<double> row_number(std::string_view field, NumberRow &row) {
    const std::size_t comma = field.find(',');
    if (comma == std::string_view::npos) {
        row.has_point = row.has_point || field.find('.') != std::string_view::npos;
        return number_from_text(field);
    }
    constexpr std::size_t longest = 40;
    if (field.size() > longest || field.find('.') != std::string_view::npos) {
        return std::nullopt;
    }
    std::string with_point(field);
    with_point[comma] = '.';
    row.has_comma = true;
    return number_from_text(with_point);
}

bool is_row_of(std::string_view line, char divider, NumberRow &row) {
    row.values.clear();
    row.has_point = false;
    row.has_comma = false;
    const bool is_whole =
        for_each_field(without_empty_end(line, divider), divider, [&](std::string_view field) {
            const auto value = row_number(field, row);
            if (value) {
                row.values.push_back(*value);
            }
            return value.has_value();
        });
    return is_whole && row.values.size() >= 2;
}

/// The divider that the line shows; nothing where only its fields can tell.
std::optional<char> plain_divider(std::string_view line) {
    for (const char divider : {'\t', ';'}) {
        if (line.find(divider) != std::string_view::npos) {
            return divider;
        }
    }
    return std::nullopt;
}

} // namespace

std::vector<std::string> fields_of_line(std::string_view line) {
    line = trimmed(line);
    NumberRow row;
    const auto plain = plain_divider(line);
    const char divider = plain                                      ? *plain
                         : is_row_of(line, kBlanks, row)            ? kBlanks
                         : line.find(',') != std::string_view::npos ? ','
                                                                    : kBlanks;
    std::vector<std::string> fields;
    (void)for_each_field(without_empty_end(line, divider), divider, [&](std::string_view field) {
        fields.emplace_back(field);
        return true;
    });
    return fields;
}

bool read_number_row(std::string_view line, NumberRow &row) {
    if (const auto divider = plain_divider(line)) {
        return is_row_of(line, *divider, row);
    }
    return is_row_of(line, kBlanks, row) || is_row_of(line, ',', row);
}

} // namespace cospot

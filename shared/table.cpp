#include "shared/table.h"

#include "shared/number.h"
#include "shared/text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <numeric>
#include <utility>

namespace cospot {

namespace {

std::string names_of(const std::vector<TableColumn> &columns, bool required) {
    std::vector<std::string> names;
    for (const TableColumn &column : columns) {
        if (column.required == required) {
            names.push_back(column.name);
        }
    }
    return fmt::format("{}", fmt::join(names, ","));
}

std::string quoted_list(const std::vector<std::string> &names) {
    constexpr std::size_t most = 12;
    std::string text;
    for (std::size_t i = 0; i < std::min(names.size(), most); ++i) {
        text += (i > 0 ? ", " : "") + in_quotes(trimmed(names[i]), 30);
    }
    return text + (names.size() > most ? ", ..." : "");
}

std::string_view name_in_header(const std::string &column,
                                const std::vector<ColumnAlias> &aliases) {
    for (const ColumnAlias &alias : aliases) {
        if (alias.column == column) {
            return alias.header;
        }
    }
    return column;
}

/// How many letters have to be changed, added or left out to make one word the other (Levenshtein
/// 1966), but for their case.
std::size_t edits_between(std::string_view a, std::string_view b) {
    const std::string first = lower_ascii(a);
    const std::string second = lower_ascii(b);
    std::vector<std::size_t> row(second.size() + 1);
    std::iota(row.begin(), row.end(), 0U);
    for (std::size_t i = 1; i <= first.size(); ++i) {
        std::size_t diagonal = std::exchange(row[0], i);
        for (std::size_t j = 1; j <= second.size(); ++j) {
            const std::size_t changed = diagonal + (first[i - 1] == second[j - 1] ? 0 : 1);
            diagonal = row[j];
            row[j] = std::min({row[j] + 1, row[j - 1] + 1, changed});
        }
    }
    return row.back();
}

/// Whether a name is likely to be a slip for the known one. Short names differ by less.
bool is_near_miss(std::string_view name, std::string_view known) {
    constexpr std::size_t shortest = 3;
    constexpr std::size_t longer = 7;
    const std::size_t length = std::min(name.size(), known.size());
    return length >= shortest && edits_between(name, known) <= (length >= longer ? 2U : 1U);
}

} // namespace

void add_unused_columns(const TableReader &table, std::vector<std::string> &notes) {
    for (const std::string &column : table.unused()) {
        notes.push_back("column " + in_quotes(column) + " is not used");
    }
}

TableReader::TableReader(std::istream &in, std::string file, std::vector<TableColumn> columns,
                         const std::vector<ColumnAlias> &aliases)
    : csv_(in, std::move(file)), columns_(std::move(columns)) {
    read_header(aliases);
}

void TableReader::read_header(const std::vector<ColumnAlias> &aliases) {
    const std::string required = names_of(columns_, true);
    if (!csv_.next()) {
        throw InputError(
            {file(), 1, ""}, "an empty file",
            "a header with the columns " +
                (required.empty() ? "of a kind: " + names_of(columns_, false) : required));
    }
    header_ = csv_.fields();
    field_of_column_.resize(columns_.size());
    for (std::size_t field = 0; field < header_.size(); ++field) {
        const std::string_view name = trimmed(header_[field]);
        const auto known = std::find_if(columns_.begin(), columns_.end(), [&](const auto &column) {
            return equal_ignoring_case(name_in_header(column.name, aliases), name);
        });
        if (known == columns_.end()) {
            if (!name.empty()) {
                unused_.emplace_back(name);
            }
            continue;
        }
        auto &slot = field_of_column_[static_cast<std::size_t>(known - columns_.begin())];
        if (slot) {
            throw InputError({file(), line(), known->name}, "the column twice",
                             "each column once in the header");
        }
        slot = field;
    }
    if (!required.empty()) { // else the columns are asked for only to see which kind it is
        check_near_misses(aliases);
    }
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        if (columns_[i].required && !field_of_column_[i]) {
            throw InputError(
                {file(), line(), columns_[i].name}, "a header without it: " + quoted_list(header_),
                "the columns " + required + " (optional: " + names_of(columns_, false) + ")");
        }
    }
}

void TableReader::check_near_misses(const std::vector<ColumnAlias> &aliases) const {
    for (const std::string &name : unused_) {
        for (std::size_t i = 0; i < columns_.size(); ++i) {
            const std::string_view known = name_in_header(columns_[i].name, aliases);
            if (!field_of_column_[i] && is_near_miss(name, known)) {
                throw InputError({file(), line(), name}, "the column " + in_quotes(name),
                                 fmt::format("{} for the column of that meaning, or another name "
                                             "for one that is not to be read",
                                             in_quotes(known)));
            }
        }
    }
}

bool TableReader::next() {
    if (!csv_.next()) {
        return false;
    }
    if (csv_.fields().size() != header_.size()) {
        throw InputError({file(), line(), ""}, fmt::format("{} fields", csv_.fields().size()),
                         fmt::format("{} fields as in the header (a decimal comma, or a delimiter "
                                     "inside a text, must stand in quotes)",
                                     header_.size()));
    }
    return true;
}

std::optional<std::size_t> TableReader::index_of(std::string_view column) const {
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        if (columns_[i].name == column) {
            return field_of_column_[i];
        }
    }
    return std::nullopt;
}

bool TableReader::has(std::string_view column) const {
    return index_of(column).has_value();
}

std::string_view TableReader::text(std::string_view column) const {
    const auto index = index_of(column);
    return index ? without_guard(trimmed(csv_.fields()[*index])) : std::string_view();
}

std::string_view TableReader::required_text(std::string_view column,
                                            const std::string &expected) const {
    const std::string_view value = text(column);
    if (value.empty()) {
        throw InputError(where(column), "nothing", expected);
    }
    return value;
}

double TableReader::number(std::string_view column, const std::string &expected) const {
    return parse_number(text(column), where(column), expected);
}

std::optional<double> TableReader::optional_number(std::string_view column,
                                                   const std::string &expected) const {
    if (text(column).empty()) {
        return std::nullopt;
    }
    return number(column, expected);
}

std::optional<double> TableReader::optional_amount(std::string_view column,
                                                   const std::string &expected) const {
    const auto value = optional_number(column, expected);
    if (value && *value < 0.0) {
        throw InputError(where(column), exact_text(*value), expected + " of 0 or more");
    }
    return value;
}

Where TableReader::where(std::string_view column) const {
    return {file(), line(), std::string(column)};
}

} // namespace cospot

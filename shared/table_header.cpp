#include "shared/table_header.h"

#include "shared/column_unit.h"
#include "shared/edit_distance.h"
#include "shared/text.h"
#include "shared/usual_headers.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace cospot {

namespace {

/// A column with the unit of the file, where it is another one.
ColumnPlace placed(std::size_t field, const std::string &unit, const TableColumn &column) {
    const auto factor = unit_factor(unit, column.unit);
    return factor && *factor != 1.0 ? ColumnPlace{field, *factor, unit} : ColumnPlace{field};
}

/// As names are compared: in lower case, without blanks, hyphens and underscores.
std::string spelt_together(std::string_view name) {
    std::string plain = lower_ascii(trimmed(name));
    std::erase_if(plain, [](char sign) { return sign == ' ' || sign == '-' || sign == '_'; });
    return plain;
}

/// The name of a column without its unit.
std::string stem_of(const TableColumn &column) {
    const NameWithUnit split = split_unit(column.name);
    return split.unit.empty() ? column.name : split.name;
}

bool is_header(const ColumnAlias &alias, std::string_view name) {
    return equal_ignoring_case(trimmed(alias.header), name);
}

/// What the user calls columns of this reader, of the names that the header has.
std::vector<ColumnAlias> aliases_in(const std::vector<std::string> &fields,
                                    const std::vector<TableColumn> &columns,
                                    const std::vector<ColumnAlias> &aliases) {
    std::vector<ColumnAlias> there;
    std::copy_if(aliases.begin(), aliases.end(), std::back_inserter(there), [&](const auto &alias) {
        return std::any_of(fields.begin(), fields.end(),
                           [&](const auto &name) { return is_header(alias, trimmed(name)); }) &&
               std::any_of(columns.begin(), columns.end(), [&](const TableColumn &column) {
                   return names_column(alias.column, column);
               });
    });
    return there;
}

/// Where the header's field names the column, if it does.
std::optional<ColumnPlace> place_in(std::size_t field, std::string_view name,
                                    const TableColumn &column,
                                    const std::vector<ColumnAlias> &aliases) {
    bool has_alias = false;
    bool is_claimed = false;
    for (const ColumnAlias &alias : aliases) {
        const bool is_here = is_header(alias, name);
        const bool is_of_column = names_column(alias.column, column);
        if (is_here && is_of_column) {
            const std::string &unit = split_unit(alias.header).unit;
            return placed(field, unit.empty() ? split_unit(alias.column).unit : unit, column);
        }
        has_alias |= is_of_column;
        is_claimed |= is_here;
    }
    const std::string text(name);
    if (has_alias || (is_claimed && !column.required) || !names_column(text, column)) {
        return std::nullopt;
    }
    return placed(field, split_unit(text).unit, column);
}

/// A column whose numbers could be of several units must say which.
void check_unit(const std::string &header, const TableColumn &column, const Where &where) {
    const NameWithUnit split = split_unit(header);
    const bool is_meant = equal_ignoring_case(split.name, stem_of(column)) && !column.unit.empty();
    if (is_meant) {
        throw InputError(
            where, split.unit.empty() ? "a column without its unit" : "a column in " + split.unit,
            fmt::format("the unit in the header: {0} ({1}), or another one of that kind",
                        stem_of(column), column.unit));
    }
}

/// Whether a name is likely to be a slip for the known one. Short names differ by less.
bool is_near_miss(std::string_view name, std::string_view known) {
    constexpr std::size_t shortest = 3;
    constexpr std::size_t longer = 7;
    const std::size_t length = std::min(name.size(), known.size());
    const std::size_t most = length >= longer ? 2 : 1;
    return length >= shortest && edit_distance(lower_ascii(name), lower_ascii(known)) <= most;
}

/// How many columns the row names, or has a usual other name for.
std::ptrdiff_t columns_meant(const HeaderMatch &match, const TableColumns &columns) {
    std::ptrdiff_t count = 0;
    for (std::size_t i = 0; i < columns.known.size(); ++i) {
        count +=
            match.places[i] || std::any_of(match.unused.begin(), match.unused.end(),
                                           [&](const std::string &name) {
                                               return usually_means(name, columns.known[i].name);
                                           })
                ? 1
                : 0;
    }
    return count;
}

/// The line of the record that is the header; 0 where no record can be read.
std::size_t line_of_header(CsvReader &csv, const TableColumns &columns,
                           const std::vector<ColumnAlias> &aliases) {
    constexpr int most_rows = 20;
    std::size_t best = 0;
    std::ptrdiff_t most_named = 1;
    for (int row = 0; row < most_rows; ++row) {
        try {
            if (!csv.next_with_own_delimiter()) {
                break;
            }
        } catch (const InputError &) {
            continue; // a title may be anything; a row is refused where it is read
        }
        const HeaderMatch match = match_header(csv.fields(), columns.known, aliases);
        if (missing_columns(match, columns).empty()) {
            return csv.line();
        }
        const std::ptrdiff_t named = columns_meant(match, columns);
        if (row == 0 || named > most_named) {
            best = csv.line();
            most_named = std::max(most_named, named);
        }
    }
    return best;
}

} // namespace

void settle(const ColumnAlias &alias) {
    if (alias.is_settled) {
        *alias.is_settled = true;
    }
}

bool is_word_of_cells(std::string_view text) {
    constexpr std::string_view words[]{"standard", "sample", "cospot", "yes", "no"};
    return std::any_of(std::begin(words), std::end(words),
                       [&](std::string_view word) { return equal_ignoring_case(word, text); });
}

bool names_column(const std::string &text, const TableColumn &column) {
    const NameWithUnit split = split_unit(text);
    return spelt_together(text) == spelt_together(column.name) ||
           (spelt_together(split.name) == spelt_together(stem_of(column)) &&
            unit_factor(split.unit, column.unit));
}

HeaderMatch match_header(const std::vector<std::string> &fields,
                         const std::vector<TableColumn> &columns,
                         const std::vector<ColumnAlias> &aliases) {
    HeaderMatch match{std::vector<std::optional<ColumnPlace>>(columns.size()),
                      {},
                      "",
                      std::vector<std::vector<ColumnPlace>>(columns.size())};
    const std::vector<ColumnAlias> there = aliases_in(fields, columns, aliases);
    for (std::size_t field = 0; field < fields.size(); ++field) {
        const std::string_view name = trimmed(fields[field]);
        bool is_used = name.empty();
        for (std::size_t at = 0; at < columns.size(); ++at) {
            if (auto place = place_in(field, name, columns[at], there)) {
                is_used = true;
                if (match.places[at] && columns[at].may_repeat) {
                    match.again[at].push_back(std::move(*place));
                    continue;
                }
                match.twice = match.places[at] ? columns[at].name : match.twice;
                match.places[at] = std::move(place);
            }
        }
        if (!is_used) {
            match.unused.emplace_back(name);
        }
    }
    return match;
}

std::vector<std::string> missing_columns(const HeaderMatch &match, const TableColumns &columns) {
    const auto is_there = [&](const std::string &name) {
        for (std::size_t i = 0; i < columns.known.size(); ++i) {
            if (columns.known[i].name == name) {
                return match.places[i].has_value();
            }
        }
        return false;
    };
    std::vector<std::string> missing;
    for (const TableColumn &column : columns.known) {
        if (column.required && !is_there(column.name)) {
            missing.push_back(column.name);
        }
    }
    std::optional<std::vector<std::string>> least;
    for (const std::vector<std::string> &set : columns.one_of) {
        std::vector<std::string> lacking;
        std::copy_if(set.begin(), set.end(), std::back_inserter(lacking),
                     [&](const std::string &name) { return !is_there(name); });
        if (!least || lacking.size() < least->size()) {
            least = std::move(lacking);
        }
    }
    if (least) {
        missing.insert(missing.end(), least->begin(), least->end());
    }
    return missing;
}

void check_near_misses(const HeaderMatch &match, const std::vector<TableColumn> &columns,
                       const std::string &file, std::size_t line) {
    for (const std::string &name : match.unused) {
        for (std::size_t i = 0; i < columns.size(); ++i) {
            if (match.places[i]) {
                continue;
            }
            check_unit(name, columns[i], {file, line, name});
            const std::string &known = columns[i].name;
            if (is_near_miss(name, known)) {
                throw InputError({file, line, name}, "the column " + in_quotes(name),
                                 fmt::format("{} for the column of that meaning, or another name "
                                             "for one that is not to be read",
                                             in_quotes(known)));
            }
        }
    }
}

std::optional<std::size_t> go_to_header(CsvReader &csv, const TableColumns &columns,
                                        const std::vector<ColumnAlias> &aliases) {
    csv.keep_lines();
    const std::size_t header = line_of_header(csv, columns, aliases);
    csv.go_back();
    std::size_t above = 0;
    while (true) {
        try {
            if (!csv.next_with_own_delimiter()) {
                return std::nullopt;
            }
            if (csv.line() == header) {
                return above;
            }
        } catch (const InputError &) {
            if (header == 0) {
                throw;
            }
        }
        ++above;
    }
}

} // namespace cospot

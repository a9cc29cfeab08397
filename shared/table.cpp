#include "shared/table.h"

#include "shared/column_unit.h"
#include "shared/number.h"
#include "shared/row_of_sums.h"
#include "shared/text.h"
#include "shared/usual_headers.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <limits>
#include <utility>

namespace cospot {

namespace {

std::string quoted_list(const std::vector<std::string> &names) {
    constexpr std::size_t most = 12;
    std::string text;
    for (std::size_t i = 0; i < std::min(names.size(), most); ++i) {
        text += (i > 0 ? ", " : "") + in_quotes(trimmed(names[i]), 30);
    }
    return text + (names.size() > most ? ", ..." : "");
}

bool is_in_a_set(const TableColumns &columns, const std::string &name) {
    return std::any_of(columns.one_of.begin(), columns.one_of.end(), [&](const auto &set) {
        return std::find(set.begin(), set.end(), name) != set.end();
    });
}

std::string optional_names(const TableColumns &columns) {
    std::vector<std::string> names;
    for (const TableColumn &column : columns.known) {
        if (!column.required && !is_in_a_set(columns, column.name)) {
            names.push_back(column.name);
        }
    }
    return fmt::format("{}", fmt::join(names, ","));
}

/// "lane and distance_mm or Rf"
std::string needed_names(const TableColumns &columns) {
    std::vector<std::string> names;
    for (const TableColumn &column : columns.known) {
        if (column.required) {
            names.push_back(column.name);
        }
    }
    std::vector<std::string> sets;
    for (const std::vector<std::string> &set : columns.one_of) {
        sets.push_back(fmt::format("{}", fmt::join(set, ",")));
    }
    return fmt::format("{}{}{}", fmt::join(names, ","),
                       names.empty() || sets.empty() ? "" : " and ", fmt::join(sets, " or "));
}

} // namespace

TableReader::TableReader(std::istream &in, std::string file, std::vector<TableColumn> columns,
                         const std::vector<ColumnAlias> &aliases,
                         std::vector<std::vector<std::string>> one_of)
    : csv_(in, std::move(file)), columns_{std::move(columns), std::move(one_of)} {
    asks_kind_ = std::none_of(columns_.known.begin(), columns_.known.end(),
                              [](const TableColumn &column) { return column.required; });
    for (TableColumn &column : columns_.known) {
        if (column.unit.empty()) {
            column.unit = split_unit(column.name).unit;
        }
        is_optional_.push_back(asks_kind_ ||
                               (!column.required && !is_in_a_set(columns_, column.name)));
    }
    read_header(aliases);
}

void TableReader::read_header(const std::vector<ColumnAlias> &given) {
    const auto above = go_to_header(csv_, columns_, given);
    if (!above) {
        throw InputError(
            {file(), 1, ""}, "an empty file",
            "a header with the columns " +
                (asks_kind_ ? "of a kind: " + optional_names(columns_) : needed_names(columns_)));
    }
    above_ = *above;
    header_line_ = line();
    header_ = csv_.fields();
    match_ = match_header(header_, columns_.known, given);
    sort_aliases(given);
    if (!match_.twice.empty()) {
        throw InputError({file(), line(), match_.twice}, "the column twice",
                         "each column once in the header");
    }
    if (!asks_kind_) {
        check_near_misses(match_, columns_.known, file(), line());
        check_required();
    }
}

/// Where a table has no column of the header that --map names, its own name for the column holds:
/// the other tables of the call may have it.
void TableReader::sort_aliases(const std::vector<ColumnAlias> &given) {
    for (const ColumnAlias &alias : given) {
        const bool is_there =
            std::any_of(header_.begin(), header_.end(), [&](const std::string &name) {
                return equal_ignoring_case(trimmed(name), trimmed(alias.header));
            });
        const auto known =
            std::find_if(columns_.known.begin(), columns_.known.end(),
                         [&](const auto &column) { return names_column(alias.column, column); });
        if (known != columns_.known.end() && is_there) {
            settle(alias);
        } else if (is_word_of_cells(alias.column)) {
            words_.push_back(alias); // a header may be the same word
        } else if (known != columns_.known.end()) {
            const auto at = static_cast<std::size_t>(known - columns_.known.begin());
            if (!match_.places[at]) {
                missing_.push_back(alias);
            }
        } else if (is_there) {
            settle(alias);
            unread_.push_back(alias.column);
        } else {
            meanings_.push_back(alias); // or of another table
        }
    }
}

void TableReader::check_required() const {
    const std::vector<std::string> missing = missing_columns(match_, columns_);
    if (missing.empty()) {
        return;
    }
    const bool is_one = missing.size() == 1;
    const std::string optional = optional_names(columns_);
    const std::string maps = proposed_maps(match_.unused, absent_columns());
    throw InputError(
        {file(), line(), is_one ? missing.front() : ""},
        fmt::format("a header without {}: {}",
                    is_one ? "it" : fmt::format("the columns {}", fmt::join(missing, ", ")),
                    quoted_list(header_)),
        fmt::format("the columns {}{}, or --map COLUMN=HEADER for what your table calls them{}",
                    needed_names(columns_), optional.empty() ? "" : " (optional: " + optional + ")",
                    maps.empty() ? "" : "; perhaps " + maps));
}

std::vector<std::string> TableReader::absent_columns() const {
    std::vector<std::string> absent;
    for (std::size_t i = 0; i < columns_.known.size(); ++i) {
        if (!match_.places[i]) {
            absent.push_back(columns_.known[i].name);
        }
    }
    return absent;
}

bool TableReader::next() {
    while (next_row()) {
        const RowKind kind = kind_of_row();
        before_ = fields();
        if (kind == RowKind::measured) {
            check_width();
            is_row_whole_ = true;
            return true;
        }
        if (kind == RowKind::sums) {
            lines_of_sums_.push_back(line());
        } else {
            const auto text = std::find_if(fields().begin(), fields().end(), [](const auto &field) {
                return !trimmed(field).empty();
            });
            remarks_.push_back(fmt::format("line {}, {}", line(), in_quotes(trimmed(*text), 40)));
        }
    }
    return false;
}

bool TableReader::next_row() {
    check_row();
    is_row_whole_ = false;
    return csv_.next();
}

void TableReader::check_width() const {
    if (fields().size() != header_.size()) {
        throw InputError({file(), line(), ""}, fmt::format("{} fields", fields().size()),
                         fmt::format("{} fields as in the header (a decimal comma, or a delimiter "
                                     "inside a text, must stand in quotes)",
                                     header_.size()));
    }
}

/// What each row must have is missing in all that are passed over: no measured row is lost.
RowKind TableReader::kind_of_row() const {
    return lacks_a_need() ? kind_of_incomplete(cells_of_row()) : RowKind::measured;
}

bool TableReader::lacks_a_need() const {
    const auto is_empty_at = [&](const ColumnPlace *place) {
        if (place == nullptr || place->field >= fields().size()) {
            return true;
        }
        const std::string_view text = trimmed(fields()[place->field]);
        return says_nothing(text) || is_word_for_sums(text); // which measures nothing
    };
    if (!asks_kind_) {
        for (std::size_t i = 0; i < columns_.known.size(); ++i) {
            const auto &place = match_.places[i];
            if (columns_.known[i].required && is_empty_at(place ? &*place : nullptr)) {
                return true;
            }
        }
        return false;
    }
    const auto is_empty = [&](const std::string &name) { return is_empty_at(place_of(name)); };
    return !columns_.one_of.empty() &&
           std::all_of(columns_.one_of.begin(), columns_.one_of.end(), [&](const auto &set) {
               return std::any_of(set.begin(), set.end(), is_empty);
           });
}

std::vector<RowCell> TableReader::cells_of_row() const {
    std::vector<RowCell> cells;
    for (std::size_t field = 0; field < fields().size(); ++field) {
        RowCell cell{.text = without_guard(trimmed(fields()[field]))};
        cell.text = says_nothing(cell.text) ? std::string_view() : cell.text;
        cell.is_of_run = field < before_.size() && trimmed(before_[field]) == cell.text;
        for (std::size_t i = 0; i < columns_.known.size(); ++i) {
            if (match_.places[i] && match_.places[i]->field == field) {
                const std::string &name = columns_.known[i].name;
                cell.is_read = true;
                cell.is_needed |= columns_.known[i].required || is_in_a_set(columns_, name);
                cell.is_of_run |= name == "run" || name == "sample" || name == "date";
            }
        }
        cells.push_back(cell);
    }
    return cells;
}

std::optional<std::size_t> TableReader::index_of(std::string_view column) const {
    for (std::size_t i = 0; i < columns_.known.size(); ++i) {
        if (columns_.known[i].name == column) {
            return i;
        }
    }
    return std::nullopt;
}

const ColumnPlace *TableReader::place_of(std::string_view column) const {
    const auto at = index_of(column);
    return at && match_.places[*at] ? &*match_.places[*at] : nullptr;
}

std::string_view TableReader::field_of(std::optional<std::size_t> known) const {
    return known && match_.places[*known] && is_row_whole_
               ? meant(csv_.fields()[match_.places[*known]->field])
               : std::string_view();
}

std::string_view TableReader::meant(std::string_view field) const {
    field = without_guard(trimmed(field));
    for (const ColumnAlias &alias : meanings_) {
        if (equal_ignoring_case(trimmed(alias.header), field)) {
            settle(alias);
            return alias.column;
        }
    }
    return field;
}

bool TableReader::has(std::string_view column) const {
    return place_of(column) != nullptr;
}

double TableReader::factor(std::string_view column) const {
    const ColumnPlace *place = place_of(column);
    return place != nullptr ? place->factor : 1.0;
}

std::string_view TableReader::written(std::string_view column) const {
    return field_of(index_of(column));
}

std::string_view TableReader::text(std::string_view column) const {
    const auto at = index_of(column);
    const std::string_view field = field_of(at);
    return at && is_optional_[*at] && says_nothing(field) ? std::string_view() : field;
}

std::string_view TableReader::required_text(std::string_view column,
                                            const std::string &expected) const {
    const std::string_view value = text(column);
    if (value.empty()) {
        add_fault({where(column), "nothing", expected});
    }
    return value;
}

void TableReader::add_fault(const InputError &fault) const {
    if (!row_faults_.is_known(fault.where().column)) {
        row_faults_.add(fault);
    }
}

void TableReader::check_row() const {
    std::exchange(row_faults_, Faults()).throw_any();
}

void TableReader::read_row(const std::function<void()> &read) const {
    keep_fault(read);
    check_row();
}

double TableReader::number(std::string_view column, const std::string &expected) const {
    return factor(column) * number_in(text(column), column, expected);
}

double TableReader::number_in(std::string_view field, std::string_view column,
                              const std::string &expected) const {
    double value = std::numeric_limits<double>::quiet_NaN();
    keep_fault([&] {
        std::string contradiction;
        const auto written = written_number(field);
        const bool may_be_read = written && (csv_.delimiter() != ',' || written->decimal != ',');
        const auto number = may_be_read ? decimal_sign_.read(*written, line(), contradiction)
                                        : std::optional<double>();
        if (!contradiction.empty()) {
            throw InputError(where(column), in_quotes(field),
                             contradiction + "; between thousands a sign can be told only beside "
                                             "the decimal sign (1.234,5 or 1,234.5)");
        }
        // What is no number is named as it stands there.
        value = number ? *number : parse_number(field, where(column), expected);
    });
    return value;
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
        add_fault({where(column), exact_text(*value), expected + " of 0 or more"});
    }
    return value;
}

std::string_view TableReader::word(std::string_view column,
                                   std::initializer_list<std::string_view> words) const {
    const std::string_view as_written = written(column);
    for (const ColumnAlias &alias : words_) {
        if (equal_ignoring_case(trimmed(alias.header), as_written)) {
            for (const std::string_view word : words) {
                if (equal_ignoring_case(alias.column, word)) {
                    settle(alias);
                    return word;
                }
            }
        }
    }
    return text(column);
}

std::string_view TableReader::header_of(std::string_view column) const {
    const ColumnPlace *place = place_of(column);
    return place != nullptr ? trimmed(header_[place->field]) : std::string_view();
}

Where TableReader::where(std::string_view column) const {
    return {file(), line(), std::string(column)};
}

bool says_nothing(std::string_view text) {
    return text.empty() || text == "-" || text == "–" || text == "—" ||
           equal_ignoring_case(text, "n/a");
}

void for_each_row(TableReader &table, const std::function<void()> &read,
                  const std::function<bool(const InputError &)> &is_left_out) {
    Faults faults;
    while (true) {
        try {
            if (!table.next()) {
                break;
            }
            table.read_row(read);
        } catch (const InputError &fault) {
            if (!is_left_out || !is_left_out(fault)) {
                faults.add(fault);
            }
        }
    }
    faults.throw_any();
}

} // namespace cospot

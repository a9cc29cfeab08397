#include "shared/table.h"

#include "shared/column_unit.h"
#include "shared/number.h"
#include "shared/text.h"

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
    throw InputError(
        {file(), line(), is_one ? missing.front() : ""},
        fmt::format("a header without {}: {}",
                    is_one ? "it" : fmt::format("the columns {}", fmt::join(missing, ", ")),
                    quoted_list(header_)),
        fmt::format("the columns {}{}, or --map COLUMN=HEADER for what your table calls them",
                    needed_names(columns_),
                    optional.empty() ? "" : " (optional: " + optional + ")"));
}

bool TableReader::next() {
    check_row();
    is_row_whole_ = false;
    if (!csv_.next()) {
        return false;
    }
    if (csv_.fields().size() != header_.size()) {
        throw InputError({file(), line(), ""}, fmt::format("{} fields", csv_.fields().size()),
                         fmt::format("{} fields as in the header (a decimal comma, or a delimiter "
                                     "inside a text, must stand in quotes)",
                                     header_.size()));
    }
    is_row_whole_ = true;
    return true;
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

bool TableReader::has(std::string_view column) const {
    return place_of(column) != nullptr;
}

double TableReader::factor(std::string_view column) const {
    const ColumnPlace *place = place_of(column);
    return place != nullptr ? place->factor : 1.0;
}

std::string_view TableReader::written(std::string_view column) const {
    const ColumnPlace *place = place_of(column);
    return place != nullptr && is_row_whole_ ? without_guard(trimmed(csv_.fields()[place->field]))
                                             : std::string_view();
}

std::string_view TableReader::text(std::string_view column) const {
    const std::string_view field = written(column);
    const auto at = index_of(column);
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
    const std::string_view field = text(column);
    std::string with_point(field);
    double value = std::numeric_limits<double>::quiet_NaN();
    keep_fault([&] {
        if (csv_.delimiter() != ',') {
            check_decimal_signs(field, column);
            std::replace(with_point.begin(), with_point.end(), ',', '.');
        }
        const auto number = number_from_text(with_point);
        // What is no number is named as it stands there.
        value = number ? *number : parse_number(field, where(column), expected);
    });
    return factor(column) * value;
}

/// A table has one decimal sign: the other one would divide thousands.
void TableReader::check_decimal_signs(std::string_view field, std::string_view column) const {
    const bool has_comma = field.find(',') != std::string_view::npos;
    if (!has_comma && field.find('.') == std::string_view::npos) {
        return;
    }
    std::size_t &own = has_comma ? line_with_comma_ : line_with_point_;
    const std::size_t other = has_comma ? line_with_point_ : line_with_comma_;
    if (other != 0) {
        throw InputError(where(column), in_quotes(field),
                         fmt::format("a decimal {} as in line {}, and no sign between thousands",
                                     has_comma ? "point" : "comma", other));
    }
    own = own == 0 ? line() : own;
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

Where TableReader::where(std::string_view column) const {
    return {file(), line(), std::string(column)};
}

std::vector<std::string> TableReader::notes() const {
    std::vector<std::string> notes;
    if (above_ > 0) {
        notes.push_back(fmt::format("the header is line {}; {} above it {} not read", header_line_,
                                    counted(above_, "line"), above_ == 1 ? "is" : "are"));
    }
    for (const std::string &column : match_.unused) {
        notes.push_back("column " + in_quotes(column) + " is not used");
    }
    for (std::size_t i = 0; i < columns_.known.size(); ++i) {
        if (const auto &place = match_.places[i]; place && !place->unit.empty()) {
            notes.push_back(fmt::format("column {} is read in {} and converted to {}",
                                        in_quotes(trimmed(header_[place->field])), place->unit,
                                        columns_.known[i].unit));
        }
    }
    for (const std::string &column : unread_) {
        notes.push_back("--map: no column " + in_quotes(column) + " is read from this table");
    }
    std::string missing;
    for (const ColumnAlias &alias : missing_) {
        settle(alias);
        missing += fmt::format("{}{} for {}", missing.empty() ? "" : ", ", in_quotes(alias.header),
                               alias.column);
    }
    if (!missing.empty()) {
        notes.push_back("--map: there is no column " + missing);
    }
    if (csv_.first_of_windows_1252() != 0) {
        notes.push_back(fmt::format("the text is read as Windows-1252 (from line {} on): check "
                                    "letters with accents, or save as CSV UTF-8",
                                    csv_.first_of_windows_1252()));
    }
    if (line_with_comma_ != 0) {
        notes.push_back(
            fmt::format("a comma is read as the decimal sign (line {})", line_with_comma_));
    }
    return notes;
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

bool LeftOut::take(const std::string &name, const InputError &fault) {
    if (!is_partial_ || name.empty()) {
        return false;
    }
    faults_.try_emplace(name, fault.each().empty() ? fault.what() : fault.each().front().what());
    return true;
}

std::vector<std::string> notes_on(const TableReader &table, const LeftOut &left_out,
                                  const std::string &kind) {
    std::vector<std::string> notes = table.notes();
    const std::vector<std::string> warnings = left_out.notes(kind);
    notes.insert(notes.end(), warnings.begin(), warnings.end());
    return notes;
}

std::vector<std::string> LeftOut::notes(const std::string &kind) const {
    std::vector<std::string> notes;
    for (const auto &[name, fault] : faults_) {
        notes.push_back(fmt::format("! {} {} is left out: {}", kind, name, fault));
    }
    return notes;
}

} // namespace cospot

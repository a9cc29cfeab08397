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

/// What a header says of a known column that it names.
struct HeaderMatch {
    double factor = 1.0; ///< from the unit of the file to that of the column
    std::string unit;    ///< of the file, where it is another one
};

HeaderMatch with_unit(const std::string &unit, const TableColumn &column) {
    const auto factor = unit_factor(unit, column.unit);
    return factor && *factor != 1.0 ? HeaderMatch{*factor, unit} : HeaderMatch{};
}

/// The name of a column without its unit.
std::string stem_of(const TableColumn &column) {
    const NameWithUnit split = split_unit(column.name);
    return split.unit.empty() ? column.name : split.name;
}

bool names_column(const std::string &text, const TableColumn &column) {
    const NameWithUnit split = split_unit(text);
    return equal_ignoring_case(text, column.name) ||
           (equal_ignoring_case(split.name, stem_of(column)) &&
            unit_factor(split.unit, column.unit));
}

/// Whether a header names the column: by what the user calls it, by its name, or with another unit.
std::optional<HeaderMatch> match_of(std::string_view header, const TableColumn &column,
                                    const std::vector<ColumnAlias> &aliases) {
    for (const ColumnAlias &alias : aliases) {
        if (names_column(alias.column, column)) {
            if (!equal_ignoring_case(trimmed(alias.header), header)) {
                return std::nullopt;
            }
            const std::string &unit = split_unit(alias.header).unit;
            return with_unit(unit.empty() ? split_unit(alias.column).unit : unit, column);
        }
    }
    const std::string name(header);
    return names_column(name, column) ? std::optional(with_unit(split_unit(name).unit, column))
                                      : std::nullopt;
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

/// What `word` may be asked for.
bool is_word_of_cells(std::string_view text) {
    constexpr std::string_view words[]{"standard", "sample", "cospot", "yes", "no"};
    return std::any_of(std::begin(words), std::end(words),
                       [&](std::string_view word) { return equal_ignoring_case(word, text); });
}

} // namespace

TableReader::TableReader(std::istream &in, std::string file, std::vector<TableColumn> columns,
                         const std::vector<ColumnAlias> &aliases)
    : csv_(in, std::move(file)), columns_(std::move(columns)), places_(columns_.size()) {
    for (TableColumn &column : columns_) {
        if (column.unit.empty()) {
            column.unit = split_unit(column.name).unit;
        }
    }
    read_header(aliases);
}

/// Where a table has no column of the header that --map names, its own name for the column holds:
/// the other tables of the call may have it.
void TableReader::read_header(const std::vector<ColumnAlias> &given) {
    const std::string required = names_of(columns_, true);
    if (!csv_.next()) {
        throw InputError(
            {file(), 1, ""}, "an empty file",
            "a header with the columns " +
                (required.empty() ? "of a kind: " + names_of(columns_, false) : required));
    }
    header_ = csv_.fields();
    std::vector<ColumnAlias> aliases;
    for (const ColumnAlias &alias : given) {
        const bool is_there =
            std::any_of(header_.begin(), header_.end(), [&](const std::string &name) {
                return equal_ignoring_case(trimmed(name), trimmed(alias.header));
            });
        const bool is_known =
            std::any_of(columns_.begin(), columns_.end(), [&](const TableColumn &column) {
                return names_column(alias.column, column);
            });
        if (is_known) {
            const auto twin = std::find_if(aliases.begin(), aliases.end(), [&](const auto &other) {
                return equal_ignoring_case(other.column, alias.column);
            });
            if (is_there && twin != aliases.end()) {
                throw InputError({file(), line(), alias.column},
                                 fmt::format("{} and {}, both given for it with --map",
                                             in_quotes(twin->header), in_quotes(alias.header)),
                                 "one of them in a table");
            }
            (is_there ? aliases : missing_).push_back(alias);
        } else if (is_word_of_cells(alias.column)) {
            words_.push_back(alias); // a header may be the same word
        } else if (is_there) {
            unread_.push_back(alias.column);
        }
    }
    for (std::size_t field = 0; field < header_.size(); ++field) {
        const std::string_view name = trimmed(header_[field]);
        std::optional<HeaderMatch> match;
        std::size_t at = 0;
        while (at < columns_.size() && !(match = match_of(name, columns_[at], aliases))) {
            ++at;
        }
        if (!match) {
            if (!name.empty()) {
                unused_.emplace_back(name);
            }
            continue;
        }
        if (places_[at]) {
            throw InputError({file(), line(), columns_[at].name}, "the column twice",
                             "each column once in the header");
        }
        places_[at] = {field, match->factor, match->unit};
    }
    if (!required.empty()) { // else the columns are asked for only to see which kind it is
        check_near_misses();
    }
    check_required();
}

void TableReader::check_required() const {
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        if (columns_[i].required && !places_[i]) {
            const std::string maps = proposed_maps(unused_, absent_columns());
            throw InputError({file(), line(), columns_[i].name},
                             "a header without it: " + quoted_list(header_),
                             "the columns " + names_of(columns_, true) +
                                 " (optional: " + names_of(columns_, false) +
                                 "), or --map COLUMN=HEADER for what your table calls them" +
                                 (maps.empty() ? "" : "; perhaps " + maps));
        }
    }
}

std::vector<std::string> TableReader::absent_columns() const {
    std::vector<std::string> absent;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        if (!places_[i]) {
            absent.push_back(columns_[i].name);
        }
    }
    return absent;
}

void TableReader::check_near_misses() const {
    for (const std::string &name : unused_) {
        for (std::size_t i = 0; i < columns_.size(); ++i) {
            if (places_[i]) {
                continue;
            }
            check_unit(name, columns_[i], {file(), line(), name});
            const std::string &known = columns_[i].name;
            if (is_near_miss(name, known)) {
                throw InputError({file(), line(), name}, "the column " + in_quotes(name),
                                 fmt::format("{} for the column of that meaning, or another name "
                                             "for one that is not to be read",
                                             in_quotes(known)));
            }
        }
    }
}

bool TableReader::next() {
    while (next_row()) {
        if (!is_row_of_sums()) {
            return true;
        }
        lines_of_sums_.push_back(line());
    }
    return false;
}

bool TableReader::next_row() {
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

/// What each row must have is missing: no measured row is lost.
bool TableReader::is_row_of_sums() const {
    return is_called_sum(fields()) &&
           std::any_of(columns_.begin(), columns_.end(), [&](const TableColumn &column) {
               return column.required && text(column.name).empty();
           });
}

const std::optional<TableReader::Place> &TableReader::place_of(std::string_view column) const {
    static const std::optional<Place> nowhere;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        if (columns_[i].name == column) {
            return places_[i];
        }
    }
    return nowhere;
}

bool TableReader::has(std::string_view column) const {
    return place_of(column).has_value();
}

double TableReader::factor(std::string_view column) const {
    const auto &place = place_of(column);
    return place ? place->factor : 1.0;
}

std::string_view TableReader::text(std::string_view column) const {
    const auto &place = place_of(column);
    return place && is_row_whole_ ? without_guard(trimmed(csv_.fields()[place->field]))
                                  : std::string_view();
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
    double value = std::numeric_limits<double>::quiet_NaN();
    keep_fault([&] {
        std::string contradiction;
        const auto written = written_number(field);
        const bool may_be_read = csv_.delimiter() != ',' || !written || written->decimal != ',';
        const auto number = may_be_read ? decimal_sign_.read(field, line(), contradiction)
                                        : std::optional<double>();
        if (!contradiction.empty()) {
            throw InputError(where(column), in_quotes(field),
                             contradiction + "; between thousands a sign can be told only beside "
                                             "the decimal sign (1.234,5 or 1,234.5)");
        }
        // What is no number is named as it stands there.
        value = number ? *number : parse_number(field, where(column), expected);
    });
    return factor(column) * value;
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
    const std::string_view text = this->text(column);
    for (const ColumnAlias &alias : words_) {
        if (equal_ignoring_case(trimmed(alias.header), text)) {
            for (const std::string_view word : words) {
                if (equal_ignoring_case(alias.column, word)) {
                    return word;
                }
            }
        }
    }
    return text;
}

Where TableReader::where(std::string_view column) const {
    return {file(), line(), std::string(column)};
}

std::vector<std::string> TableReader::notes() const {
    std::vector<std::string> notes;
    for (const std::string &column : unused_) {
        const std::string map = proposed_maps({column}, absent_columns());
        notes.push_back("column " + in_quotes(column) + " is not used" +
                        (map.empty() ? "" : "; " + map + " reads it"));
    }
    for (std::size_t i = 0; i < columns_.size(); ++i) {
        if (places_[i] && !places_[i]->unit.empty()) {
            notes.push_back(fmt::format("column {} is read in {} and converted to {}",
                                        in_quotes(trimmed(header_[places_[i]->field])),
                                        places_[i]->unit, columns_[i].unit));
        }
    }
    for (const std::string &column : unread_) {
        notes.push_back("--map: no column " + in_quotes(column) + " is read from this table");
    }
    std::string missing;
    for (const ColumnAlias &alias : missing_) {
        for (std::size_t i = 0; i < columns_.size(); ++i) {
            if (!places_[i] && names_column(alias.column, columns_[i])) {
                missing += fmt::format("{}{} for {}", missing.empty() ? "" : ", ",
                                       in_quotes(alias.header), alias.column);
            }
        }
    }
    if (!missing.empty()) {
        notes.push_back("--map: there is no column " + missing);
    }
    if (csv_.first_of_windows_1252() != 0) {
        notes.push_back(fmt::format("the text is read as Windows-1252 (from line {} on): check "
                                    "letters with accents, or save as CSV UTF-8",
                                    csv_.first_of_windows_1252()));
    }
    if (decimal_sign_.line_with_comma() != 0) {
        notes.push_back(fmt::format("a comma is read as the decimal sign (line {})",
                                    decimal_sign_.line_with_comma()));
    }
    if (decimal_sign_.line_with_groups() != 0) {
        notes.push_back(fmt::format("a sign or blank between thousands is passed over (line {})",
                                    decimal_sign_.line_with_groups()));
    }
    if (!lines_of_sums_.empty()) {
        notes.push_back(fmt::format(
            "{} left out (line{} {})", counted(lines_of_sums_.size(), "row") + " of sums",
            lines_of_sums_.size() == 1 ? "" : "s", fmt::join(lines_of_sums_, ", ")));
    }
    return notes;
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

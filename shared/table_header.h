#pragma once

#include "shared/csv.h"

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// A column that a reader knows.
struct TableColumn {
    std::string name;
    bool required = false;
    std::string unit{};      ///< of its numbers; empty: the one at the end of the name, if any
    bool may_repeat = false; ///< several headers may name it
};

/// What the user's header calls a column that the reader knows under another name. One header may
/// serve several columns.
struct ColumnAlias {
    std::string column; ///< as the reader knows it; it may end in another unit, as "distance_cm".
                        ///< Or a word that cells have: "standard", "yes"
    std::string header; ///< as the file has it
    std::shared_ptr<bool> is_settled{}; ///< it had an effect, or a note says that it has none; null
                                        ///< where nobody asks
};

/// Notes that the alias had an effect, or that it was said to have none.
void settle(const ColumnAlias &alias);

/// Whether cells have this word, in a column such as role or stained: "standard", "yes".
[[nodiscard]] bool is_word_of_cells(std::string_view text);

/// The columns of a reader, and what a header must have of them.
struct TableColumns {
    std::vector<TableColumn> known;
    /// Of these sets one must be there whole, beside what is required; none: only what is required.
    std::vector<std::vector<std::string>> one_of{};
};

/// Where a known column stands in the file.
struct ColumnPlace {
    std::size_t field = 0;
    double factor = 1.0; ///< from the unit of the file to that of the column
    std::string unit{};  ///< of the file, where it is another one
};

/// What a row names of the columns that a reader knows.
struct HeaderMatch {
    std::vector<std::optional<ColumnPlace>> places; ///< one a known column
    std::vector<std::string> unused;                ///< names that no known column claims
    std::string twice;                              ///< a column that is named twice; empty: none
    /// Further places of columns that may repeat; one list a known column.
    std::vector<std::vector<ColumnPlace>> again{};
};

/// A header names a column by what the user calls it, by its name, or with another unit ("distance
/// (cm)" for distance_mm). What the user calls one column counts under its own name for another
/// only if that is required.
[[nodiscard]] HeaderMatch match_header(const std::vector<std::string> &fields,
                                       const std::vector<TableColumn> &columns,
                                       const std::vector<ColumnAlias> &aliases);

/// The columns that the header still needs; of several sets, those of the one it lacks least of.
[[nodiscard]] std::vector<std::string> missing_columns(const HeaderMatch &match,
                                                       const TableColumns &columns);

/// Whether the text names the column, in any unit of that kind. Case, blanks, hyphens and
/// underscores do not matter: "UV 254" is uv254, "stationary phase" stationary_phase.
[[nodiscard]] bool names_column(const std::string &text, const TableColumn &column);

/// Throws InputError at the header's `line` for a name that is nearly that of a known column which
/// is not there, or is one without its unit.
void check_near_misses(const HeaderMatch &match, const std::vector<TableColumn> &columns,
                       const std::string &file, std::size_t line);

/// Moves to the header: of the first 20 records, the first that names all columns it must; where
/// none does, the one that names most, two at least, by their names or usual other ones; else the
/// first record, whose fault is thrown as InputError if it has one. Returns how many records are
/// passed over; nothing for an empty file.
[[nodiscard]] std::optional<std::size_t> go_to_header(CsvReader &csv, const TableColumns &columns,
                                                      const std::vector<ColumnAlias> &aliases);

} // namespace cospot

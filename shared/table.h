#pragma once

#include "shared/csv.h"
#include "shared/error.h"

#include <cstddef>
#include <iosfwd>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// A column that a reader knows.
struct TableColumn {
    std::string name;
    bool required = false;
};

/// What the user's header calls a column that the reader knows under another name.
struct ColumnAlias {
    std::string column; ///< as the reader knows it
    std::string header; ///< as the file has it
};

/// A table with a header, read row by row through column names (their case is ignored). Throws
/// InputError for an empty file, a required column that is missing, a column that occurs twice, a
/// name that is nearly that of a known column which is not there (`rol` for `role`), and a row with
/// more or fewer fields than the header. After an error in a row, `next` goes on with
/// the row behind it.
class TableReader {
public:
    TableReader(std::istream &in, std::string file, std::vector<TableColumn> columns,
                const std::vector<ColumnAlias> &aliases = {});

    /// Goes to the next row; false at the end.
    [[nodiscard]] bool next();

    /// Whether the header holds this column.
    [[nodiscard]] bool has(std::string_view column) const;
    /// The field without blanks at its ends; empty where the column is absent.
    [[nodiscard]] std::string_view text(std::string_view column) const;
    /// As `text`, but an empty field is an InputError.
    [[nodiscard]] std::string_view required_text(std::string_view column,
                                                 const std::string &expected) const;
    /// The field as a number; anything else is an InputError.
    [[nodiscard]] double number(std::string_view column, const std::string &expected) const;
    /// As `number`, but an empty field or absent column gives no value.
    [[nodiscard]] std::optional<double> optional_number(std::string_view column,
                                                        const std::string &expected) const;
    /// As `optional_number`, and InputError for a negative one.
    [[nodiscard]] std::optional<double> optional_amount(std::string_view column,
                                                        const std::string &expected) const;

    [[nodiscard]] Where where(std::string_view column) const;
    [[nodiscard]] std::size_t line() const noexcept { return csv_.line(); }
    [[nodiscard]] const std::string &file() const noexcept { return csv_.file(); }
    /// The header and the fields of the row as they stand in the file.
    [[nodiscard]] const std::vector<std::string> &header() const noexcept { return header_; }
    [[nodiscard]] const std::vector<std::string> &fields() const noexcept { return csv_.fields(); }
    /// Header names that no known column claims, for a warning.
    [[nodiscard]] const std::vector<std::string> &unused() const noexcept { return unused_; }

private:
    void read_header(const std::vector<ColumnAlias> &aliases);
    void check_near_misses(const std::vector<ColumnAlias> &aliases) const;
    [[nodiscard]] std::optional<std::size_t> index_of(std::string_view column) const;

    CsvReader csv_;
    std::vector<TableColumn> columns_;
    std::vector<std::optional<std::size_t>> field_of_column_;
    std::vector<std::string> header_;
    std::vector<std::string> unused_;
};

/// "column X is not used", for each.
void add_unused_columns(const TableReader &table, std::vector<std::string> &notes);

} // namespace cospot

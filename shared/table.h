#pragma once

#include "shared/csv.h"
#include "shared/error.h"
#include "shared/table_number.h"

#include <cstddef>
#include <functional>
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
    std::string unit{}; ///< of its numbers; empty: the one at the end of the name, if any
};

/// What the user's header calls a column that the reader knows under another name.
struct ColumnAlias {
    std::string column; ///< as the reader knows it; it may end in another unit, as "distance_cm".
                        ///< Or a word that cells have: "standard", "yes"
    std::string header; ///< as the file has it
};

/// How a table of the user is to be read.
struct TableForm {
    std::vector<ColumnAlias> aliases{};
    bool is_partial = false; ///< a faulty row leaves out its lane or run, not the whole file
};

/// A table with a header, read row by row through column names (their case is ignored). A header
/// may say another unit of the same kind ("distance (cm)" for distance_mm): numbers are converted.
/// Where ';' or a tab divides the fields, a number may have a decimal comma. A row of sums (Total,
/// Summe) with an empty required field is passed over. Faults of one row are thrown together when
/// it has been read. Throws InputError for an
/// empty file, a required column that is missing, a column that occurs twice, a name that is nearly
/// that of a known column which is not there (`rol` for `role`), and a row with more or fewer
/// fields than the header, decimal commas beside decimal points. After an error in a row, `next`
/// goes on with the row behind it.
class TableReader {
public:
    TableReader(std::istream &in, std::string file, std::vector<TableColumn> columns,
                const std::vector<ColumnAlias> &aliases = {});

    /// Goes to the next row; false at the end.
    [[nodiscard]] bool next();

    /// Whether the header holds this column.
    [[nodiscard]] bool has(std::string_view column) const;
    /// The field without blanks at its ends; empty where the column is absent, and where the row
    /// could not be divided into fields.
    [[nodiscard]] std::string_view text(std::string_view column) const;
    /// As `text`, but for a word that --map gives for one of `words`, that one.
    [[nodiscard]] std::string_view word(std::string_view column,
                                        std::initializer_list<std::string_view> words) const;
    /// As `text`, but an empty field is a fault.
    [[nodiscard]] std::string_view required_text(std::string_view column,
                                                 const std::string &expected) const;
    /// The field as a number in the unit of the column, as `DecimalSign` reads it; anything else is
    /// a fault, and NaN.
    [[nodiscard]] double number(std::string_view column, const std::string &expected) const;
    /// As `number`, but an empty field or absent column gives no value.
    [[nodiscard]] std::optional<double> optional_number(std::string_view column,
                                                        const std::string &expected) const;
    /// As `optional_number`; a negative one is a fault.
    [[nodiscard]] std::optional<double> optional_amount(std::string_view column,
                                                        const std::string &expected) const;

    /// Keeps a fault of the row, so that its other fields are looked at, too: `check_row` throws
    /// all of the row together.
    void add_fault(const InputError &fault) const;
    /// Does that work, and keeps the fault that it throws.
    template <typename Work> void keep_fault(const Work &work) const {
        try {
            work();
        } catch (const InputError &fault) {
            add_fault(fault);
        }
    }
    /// Throws the faults of the row that were kept; `next` does so before it goes on.
    void check_row() const;
    /// Reads the row: what `read` throws, and what it kept, are thrown together.
    void read_row(const std::function<void()> &read) const;

    /// What numbers of the file were multiplied with for the unit of the column.
    [[nodiscard]] double factor(std::string_view column) const;
    [[nodiscard]] Where where(std::string_view column) const;
    [[nodiscard]] std::size_t line() const noexcept { return csv_.line(); }
    [[nodiscard]] const std::string &file() const noexcept { return csv_.file(); }
    /// The header and the fields of the row as they stand in the file.
    [[nodiscard]] const std::vector<std::string> &header() const noexcept { return header_; }
    [[nodiscard]] const std::vector<std::string> &fields() const noexcept { return csv_.fields(); }
    /// What the user should know when all rows are read: columns that are not used, units that were
    /// converted, rows that were passed over, numbers with a decimal comma.
    [[nodiscard]] std::vector<std::string> notes() const;

private:
    /// Where a known column stands in the file.
    struct Place {
        std::size_t field = 0;
        double factor = 1.0; ///< from the unit of the file to that of the column
        std::string unit{};  ///< of the file, where it is another one
    };

    void read_header(const std::vector<ColumnAlias> &given);
    void check_required() const;
    void check_near_misses() const;
    [[nodiscard]] std::vector<std::string> absent_columns() const;
    [[nodiscard]] const std::optional<Place> &place_of(std::string_view column) const;
    [[nodiscard]] bool next_row();
    [[nodiscard]] bool is_row_of_sums() const;

    CsvReader csv_;
    std::vector<TableColumn> columns_;
    std::vector<std::optional<Place>> places_; ///< one a column
    std::vector<std::string> header_;
    std::vector<std::string> unused_;  ///< header names that no known column claims
    std::vector<ColumnAlias> missing_; ///< whose header the table does not have
    std::vector<ColumnAlias> words_;   ///< aliases that name no column: of words in cells
    std::vector<std::string> unread_;  ///< columns of aliases that this kind of table has not
    bool is_row_whole_ = false;        ///< the fields are those of the header's columns
    mutable Faults row_faults_;
    mutable DecimalSign decimal_sign_;
    std::vector<std::size_t> lines_of_sums_;
};

/// Calls `read` with each row. Goes on behind a faulty row, and throws the faults of all rows
/// together as one InputError (`Faults`), but for those that `is_left_out` takes upon itself.
void for_each_row(TableReader &table, const std::function<void()> &read,
                  const std::function<bool(const InputError &)> &is_left_out = nullptr);

} // namespace cospot

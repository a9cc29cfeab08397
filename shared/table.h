#pragma once

#include "shared/csv.h"
#include "shared/error.h"
#include "shared/row_of_sums.h"
#include "shared/table_header.h"
#include "shared/table_number.h"

#include <cstddef>
#include <functional>
#include <iosfwd>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace cospot {

/// How a table of the user is to be read.
struct TableForm {
    std::vector<ColumnAlias> aliases{};
    bool is_partial = false; ///< a faulty row leaves out its lane or run, not the whole file
    std::vector<std::string> standards{}; ///< labels of a plate that are standards, without a role
    std::string stain{}; ///< what all plates were treated with, where their rows do not say
    /// Whether two names are of one compound; without it only one name in any case is.
    std::function<bool(const std::string &, const std::string &)> is_same_compound{};
};

/// A table with a header, read row by row through column names (their case is ignored). Lines above
/// the header are passed over (`go_to_header`), and so are rows of sums (Total, Summe) without what
/// a measured row must have, and remarks (`row_of_sums.h`). A header may say another unit of the
/// same kind ("distance (cm)" for distance_mm): numbers are converted. Where ';' or a tab divides
/// the fields, a number may have a decimal comma. In a column that need not be there, "-", "–", "—"
/// and "n/a" are empty fields. Faults of one row are thrown together when it has been read. Throws
/// InputError for an empty file, columns that are missing, a column that occurs twice, a name that
/// is nearly that of a known column which is not there (`rol` for `role`), and a row with more or
/// fewer fields than the header, decimal commas beside decimal points. After an error in a row,
/// `next` goes on with the row behind it.
class TableReader {
public:
    /// Where no column is `required`, the header may lack any, and `one_of` only tells it from the
    /// lines above it: the table is asked which kind it is.
    TableReader(std::istream &in, std::string file, std::vector<TableColumn> columns,
                const std::vector<ColumnAlias> &aliases = {},
                std::vector<std::vector<std::string>> one_of = {});

    /// Goes to the next row; false at the end.
    [[nodiscard]] bool next();

    /// Whether the header holds this column.
    [[nodiscard]] bool has(std::string_view column) const;
    /// The field without blanks at its ends; empty where the column is absent, and where the row
    /// could not be divided into fields.
    [[nodiscard]] std::string_view text(std::string_view column) const;
    /// As `text`, but "-" and the like are no empty field.
    [[nodiscard]] std::string_view written(std::string_view column) const;
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
    /// As `number` of a reading, which may stand behind "ca." or "~" (`behind_about`): the line is
    /// then kept in `rough_lines`.
    [[nodiscard]] double reading(std::string_view column, const std::string &expected) const;
    /// The numbers of all fields that name the column, which `may_repeat`; empty fields have none,
    /// and one field may have several: "0,67 / 0,74".
    [[nodiscard]] std::vector<double> readings(std::string_view column,
                                               const std::string &expected) const;
    /// Whether the field of the row is such a reading.
    [[nodiscard]] bool is_rough(std::string_view column) const;
    [[nodiscard]] const std::set<std::size_t> &rough_lines() const { return rough_lines_; }
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

    /// What the row says in columns that are not used, without empty fields.
    [[nodiscard]] std::string unread_words() const;
    /// What the file calls the column; empty where it is absent.
    [[nodiscard]] std::string_view header_of(std::string_view column) const;
    /// What numbers of the file were multiplied with for the unit of the column.
    [[nodiscard]] double factor(std::string_view column) const;
    [[nodiscard]] Where where(std::string_view column) const;
    [[nodiscard]] std::size_t line() const noexcept { return csv_.line(); }
    [[nodiscard]] const std::string &file() const noexcept { return csv_.file(); }
    /// Whether the row could be divided into the fields of the header.
    [[nodiscard]] bool is_row_whole() const noexcept { return is_row_whole_; }
    /// The header and the fields of the row as they stand in the file.
    [[nodiscard]] const std::vector<std::string> &header() const noexcept { return header_; }
    [[nodiscard]] const std::vector<std::string> &fields() const noexcept { return csv_.fields(); }
    /// What the user should know when all rows are read: columns that are not used, units that were
    /// converted, rows that were passed over, numbers with a decimal comma.
    [[nodiscard]] std::vector<std::string> notes() const;

private:
    void read_header(const std::vector<ColumnAlias> &given);
    void sort_aliases(const std::vector<ColumnAlias> &given);
    void check_required() const;
    [[nodiscard]] std::vector<std::string> absent_columns() const;
    [[nodiscard]] std::optional<std::size_t> index_of(std::string_view column) const;
    [[nodiscard]] const ColumnPlace *place_of(std::string_view column) const;
    /// Of the column of that index; as `written`.
    [[nodiscard]] std::string_view field_of(std::optional<std::size_t> known) const;
    /// The field without blanks at its ends, or what --map says that it means.
    [[nodiscard]] std::string_view meant(std::string_view field) const;
    /// The number that the field of the column spells.
    [[nodiscard]] double number_in(std::string_view field, std::string_view column,
                                   const std::string &expected) const;
    /// As it, but the line of a rough one is kept.
    [[nodiscard]] double reading_in(std::string_view field, std::string_view column,
                                    const std::string &expected) const;
    [[nodiscard]] bool next_row();
    void check_width() const;
    [[nodiscard]] RowKind kind_of_row() const;
    [[nodiscard]] std::vector<RowCell> cells_of_row() const;
    [[nodiscard]] bool lacks_a_need() const;

    CsvReader csv_;
    TableColumns columns_;
    bool asks_kind_ = false; ///< no column is required
    HeaderMatch match_;
    std::vector<bool> is_optional_; ///< one a column
    std::vector<std::string> header_;
    std::size_t above_ = 0; ///< records above the header
    std::size_t header_line_ = 0;
    std::vector<ColumnAlias> missing_;  ///< whose header the table does not have
    std::vector<ColumnAlias> words_;    ///< aliases that name no column: of words in cells
    std::vector<ColumnAlias> meanings_; ///< of any other cell: "RM + SM=Co"
    std::vector<std::string> unread_;   ///< columns of aliases that this kind of table has not
    bool is_row_whole_ = false;         ///< the fields are those of the header's columns
    mutable Faults row_faults_;
    mutable DecimalSign decimal_sign_;
    std::vector<std::string> before_; ///< fields of the row before
    mutable std::set<std::size_t> rough_lines_;
    std::vector<std::size_t> lines_of_sums_;
    std::vector<std::string> remarks_; ///< each with its line
};

/// Whether a field says that there is nothing: empty, "-", "–", "—" or "n/a".
[[nodiscard]] bool says_nothing(std::string_view text);

/// Calls `read` with each row. Goes on behind a faulty row, and throws the faults of all rows
/// together as one InputError (`Faults`), but for those that `is_left_out` takes upon itself.
void for_each_row(TableReader &table, const std::function<void()> &read,
                  const std::function<bool(const InputError &)> &is_left_out = nullptr);

} // namespace cospot

#pragma once

#include <string_view>
#include <vector>

namespace cospot {

/// What a row of a table of measurements is.
enum class RowKind {
    measured,
    sums,  ///< Total, Sum, Summe, Gesamt; or one number alone, behind the last peak
    remark ///< a text alone
};

/// A cell as far as the kind of its row depends on it.
struct RowCell {
    std::string_view text;  ///< without blanks at its ends; empty where it says nothing
    bool is_needed = false; ///< of a column that every measured row fills
    bool is_read = false;   ///< of a column that is read at all
    bool is_of_run = false; ///< it may name the run, lane or day: its column does, or the row
                            ///< before has the same text there
};

/// Total, Sum, Summe, Gesamt and the like, with or without a colon.
[[nodiscard]] bool is_word_for_sums(std::string_view text);

/// The kind of a row that lacks a cell which every measured row must have. It is one of sums where
/// its first text is a word for sums, where all its texts are but for the names of runs and days,
/// and where its only cell is a number behind the first column. It is a remark where its only cell
/// is a text of a column that is not read, or of several words. All else counts as measured, so
/// that it is refused. (Common practice of data systems, no source.)
[[nodiscard]] RowKind kind_of_incomplete(const std::vector<RowCell> &cells);

} // namespace cospot

#pragma once

#include "shared/table.h"

#include <optional>

namespace cospot {

/// How strong spots are, as the column intensity of a table has it: numbers of any unit, or words
/// and crosses, each half a decade from the next (common practice, no source): weak, faint or (+)
/// is 1, medium or + is 3, strong or ++ is 10, very strong or +++ is 30.
class SpotIntensities {
public:
    /// Of the row; none where the cell is empty. A negative number, another word, and words beside
    /// numbers are faults of the row.
    [[nodiscard]] std::optional<double> read(const TableReader &table);

    /// Whether the last row said it in a word: then it holds for each spot of the row.
    [[nodiscard]] bool is_word() const { return is_word_; }

private:
    bool is_word_ = false;
    std::optional<bool> are_words_; ///< of all rows; none: none had one
};

} // namespace cospot

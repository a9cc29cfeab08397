#include "shared/row_of_sums.h"

#include "shared/table_number.h"
#include "shared/text.h"

#include <algorithm>

namespace cospot {

namespace {

/// A number, a day in figures, or "< 0.03".
bool is_in_figures(std::string_view text) {
    return written_number(text) ||
           (text.find_first_of("0123456789") != std::string_view::npos &&
            text.find_first_not_of("0123456789.,-+/:<>~% ") == std::string_view::npos);
}

/// A sentence, not the name of a compound or run.
bool has_several_words(std::string_view text) {
    constexpr std::ptrdiff_t blanks = 2;
    return text.find(": ") != std::string_view::npos || text.ends_with(':') ||
           std::count(text.begin(), text.end(), ' ') >= blanks;
}

} // namespace

bool is_word_for_sums(std::string_view text) {
    if (text.ends_with(':')) {
        text.remove_suffix(1);
    }
    constexpr std::string_view words[]{"total", "totals", "sum",         "sums",
                                       "summe", "gesamt", "gesamtsumme", "total area"};
    return std::any_of(std::begin(words), std::end(words),
                       [&](std::string_view word) { return equal_ignoring_case(text, word); });
}

RowKind kind_of_incomplete(const std::vector<RowCell> &cells) {
    std::vector<const RowCell *> filled;
    bool any_word = false;
    bool any_other = false;
    for (const RowCell &cell : cells) {
        if (cell.text.empty()) {
            continue;
        }
        filled.push_back(&cell);
        const bool is_word = is_word_for_sums(cell.text);
        any_word |= is_word;
        any_other |= !is_word && !cell.is_of_run && !is_in_figures(cell.text);
    }
    if (filled.empty()) {
        return RowKind::measured;
    }
    const RowCell &first = *filled.front();
    if (is_word_for_sums(first.text) || (any_word && !any_other)) {
        return RowKind::sums;
    }
    if (filled.size() > 1 || first.is_needed) {
        return RowKind::measured;
    }
    if (is_in_figures(first.text)) {
        return &first != &cells.front() ? RowKind::sums : RowKind::measured;
    }
    return !first.is_read || has_several_words(first.text) ? RowKind::remark : RowKind::measured;
}

} // namespace cospot

#include "readers/measured_amount.h"

#include "shared/table_number.h"
#include "shared/text.h"

#include <algorithm>

namespace cospot {

namespace {

bool is_word(std::string_view text, std::initializer_list<std::string_view> words) {
    return std::any_of(words.begin(), words.end(),
                       [&](std::string_view word) { return equal_ignoring_case(text, word); });
}

constexpr MeasuredAmount kUndetected{
    .value = {}, .is_below = true, .limit = {}, .is_undetected = true};
constexpr MeasuredAmount kNotQuantified{.value = {}, .is_below = true, .limit = {}};

} // namespace

MeasuredAmount amount_below(std::string_view text) {
    text = trimmed(text);
    if (is_word(text, {"n.d.", "n.d", "nd", "n. d.", "not detected", "BLD", "BLOD"})) {
        return kUndetected;
    }
    if (is_word(text, {"BLQ", "BLOQ", "n.q.", "nq"})) {
        return kNotQuantified;
    }
    if (!text.starts_with('<')) {
        return {};
    }
    text = trimmed(text.substr(1));
    if (is_word(text, {"LOD", "DL", "NG"})) {
        return kUndetected;
    }
    if (is_word(text, {"LOQ", "LLOQ", "QL", "BG"})) {
        return kNotQuantified;
    }
    const auto number = written_number(text);
    return number && number->value > 0.0
               ? MeasuredAmount{.value = {}, .is_below = true, .limit = number->value}
               : MeasuredAmount{};
}

MeasuredAmount read_measured_amount(const TableReader &table, std::string_view column,
                                    const std::string &expected) {
    MeasuredAmount amount = amount_below(table.text(column));
    if (!amount.is_below) {
        amount.value = table.optional_amount(column, expected);
    }
    return amount;
}

} // namespace cospot

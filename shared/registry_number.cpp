#include "shared/registry_number.h"

#include "shared/text.h"

#include <fmt/format.h>

namespace cospot {

namespace {

bool has_form(std::string_view text) {
    const std::size_t n = text.size();
    if (n < 7 || n > 12) {
        return false;
    }
    for (std::size_t i = 0; i < n; ++i) {
        const bool is_hyphen_place = i == n - 2 || i == n - 5;
        if (is_hyphen_place ? text[i] != '-' : !is_digit(text[i])) {
            return false;
        }
    }
    return true;
}

/// The digit that the others ask for.
int check_digit(std::string_view text) {
    int sum = 0;
    int place = 1;
    for (std::size_t i = text.size() - 2; i-- > 0;) {
        if (is_digit(text[i])) {
            sum += place++ * (text[i] - '0');
        }
    }
    return sum % 10;
}

} // namespace

bool is_registry_number(std::string_view text) {
    return has_form(text) && check_digit(text) == text.back() - '0';
}

void check_registry_number(std::string_view text, const Where &where) {
    if (!has_form(text)) {
        throw InputError(where, in_quotes(text), "a registry number such as 58-08-2");
    }
    if (!is_registry_number(text)) {
        throw InputError(where, in_quotes(text),
                         fmt::format("a registry number whose check digit is {}: one of its digits "
                                     "is wrong",
                                     check_digit(text)));
    }
}

} // namespace cospot

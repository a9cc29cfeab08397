#include "shared/row_of_sums.h"

#include "shared/text.h"

#include <algorithm>
#include <string_view>

namespace cospot {

bool is_called_sum(const std::vector<std::string> &fields) {
    const auto first = std::find_if(fields.begin(), fields.end(),
                                    [](const auto &field) { return !trimmed(field).empty(); });
    if (first == fields.end()) {
        return false;
    }
    std::string_view name = trimmed(*first);
    if (name.ends_with(':')) {
        name.remove_suffix(1);
    }
    constexpr std::string_view words[]{"total", "totals", "sum", "sums", "summe", "gesamt"};
    return std::any_of(std::begin(words), std::end(words),
                       [&](std::string_view word) { return equal_ignoring_case(name, word); });
}

} // namespace cospot

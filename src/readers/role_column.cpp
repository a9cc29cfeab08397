#include "readers/role_column.h"

#include "shared/text.h"

#include <algorithm>
#include <initializer_list>

namespace cospot {

RowRole read_role(const TableReader &table, RowRole otherwise, bool may_be_cospot) {
    const std::string_view role = table.word("role", {"standard", "sample", "cospot"});
    if (role.empty()) {
        return otherwise;
    }
    const auto is_one_of = [&](std::initializer_list<std::string_view> words) {
        return std::any_of(words.begin(), words.end(),
                           [&](std::string_view word) { return equal_ignoring_case(role, word); });
    };
    if (is_one_of({"standard", "std", "reference", "ref"})) {
        return RowRole::standard;
    }
    if (is_one_of({"sample", "unknown"})) {
        return RowRole::sample;
    }
    if (may_be_cospot && is_one_of({"cospot", "co-spot"})) {
        return RowRole::cospot;
    }
    table.add_fault(
        {table.where("role"), in_quotes(role),
         std::string(may_be_cospot ? "sample, standard or cospot" : "sample or standard") +
             "; --map standard=WORD says what your table calls it"});
    return otherwise;
}

} // namespace cospot

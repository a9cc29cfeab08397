#include "readers/role_column.h"

#include "shared/text.h"

namespace cospot {

RowRole read_role(const TableReader &table, RowRole otherwise, bool may_be_cospot) {
    const std::string_view role = table.word("role", {"standard", "sample", "cospot"});
    if (role.empty()) {
        return otherwise;
    }
    if (equal_ignoring_case(role, "standard")) {
        return RowRole::standard;
    }
    if (equal_ignoring_case(role, "sample")) {
        return RowRole::sample;
    }
    if (may_be_cospot && equal_ignoring_case(role, "cospot")) {
        return RowRole::cospot;
    }
    throw InputError(
        table.where("role"), in_quotes(role),
        std::string(may_be_cospot ? "sample, standard or cospot" : "sample or standard") +
            "; --map standard=WORD says what your table calls it");
}

} // namespace cospot

#include "descriptors/functional_groups.h"

#include "descriptors/data_tables.h"
#include "descriptors/pattern_table.h"

namespace cospot::descriptors {

namespace {

std::vector<FunctionalGroup> read_groups() {
    std::vector<FunctionalGroup> groups;
    for (const auto &row : table_rows(kFunctionalGroups, 3)) {
        groups.push_back({row[0], row[1], row[2]});
    }
    return groups;
}

} // namespace

const std::vector<FunctionalGroup> &functional_groups() {
    static const std::vector<FunctionalGroup> groups = read_groups();
    return groups;
}

} // namespace cospot::descriptors

#include "descriptors/boiling_point_joback.h"

#include "descriptors/boiling_point_groups.h"
#include "descriptors/boiling_point_tables.h"

namespace cospot::descriptors {

BoilingPoint joback_boiling_point(const RDKit::ROMol &molecule) {
    thread_local const auto groups = read_boiling_point_groups(kJobackGroups);
    const BoilingPointGroupSum sum = sum_boiling_point_groups(molecule, groups);
    if (!sum.missing.empty()) {
        return {{}, {}, sum.missing};
    }
    return {198.2 + sum.kelvin, {}, {}};
}

} // namespace cospot::descriptors

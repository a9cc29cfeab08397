#include "descriptors/boiling_point_stein_brown.h"

#include "descriptors/boiling_point_groups.h"
#include "descriptors/boiling_point_tables.h"

namespace cospot::descriptors {

double stein_brown_corrected(double group_sum_kelvin) {
    const double t = group_sum_kelvin;
    return t <= 700.0 ? t - 94.84 + 0.5577 * t - 0.0007705 * t * t : t + 282.7 - 0.5209 * t;
}

BoilingPoint stein_brown_boiling_point(const RDKit::ROMol &molecule) {
    thread_local const auto groups = read_boiling_point_groups(kSteinBrownGroups);
    const BoilingPointGroupSum sum = sum_boiling_point_groups(molecule, groups);
    if (!sum.missing.empty()) {
        return {{}, {}, sum.missing};
    }
    return {stein_brown_corrected(198.2 + sum.kelvin), {}, {}};
}

} // namespace cospot::descriptors

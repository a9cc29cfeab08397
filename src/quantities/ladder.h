#pragma once

#include "quantities/index_scale.h"

#include <optional>
#include <vector>

namespace cospot::quantities {

/// One member of a homologous series as it was run.
struct LadderPoint {
    double carbon = 0.0; ///< carbon number as the scale counts it
    double retention_time_min = 0.0;
};

/// The series that fixes the index scale of one run, in order of elution.
struct Ladder {
    std::optional<IndexScale> scale =
        IndexScale::n_alkane; ///< none: a series of the laboratory's own
    std::vector<LadderPoint> points;
};

/// What to do where a member is missing inside the ladder.
enum class LadderGaps { refuse, interpolate };

/// Smallest step in carbon number between neighbours, the regular step of the ladder: 1 for a full
/// series, 2 for even members only. Needs two members in ascending order.
[[nodiscard]] double smallest_step(const Ladder &ladder);

/// Throws InputError, naming the members, for: fewer than two of them; a carbon number or a time
/// that is not above 0; a carbon number twice or out of ascending order; times that do not rise
/// strictly with the carbon number; and, unless gaps are to be interpolated, a step wider than the
/// smallest one.
void check_ladder(const Ladder &ladder, LadderGaps gaps);

} // namespace cospot::quantities

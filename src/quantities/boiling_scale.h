#pragma once

#include "quantities/ladder.h"
#include "quantities/retention_index.h"

#include <optional>
#include <vector>

namespace cospot::quantities {

/// Boiling point of an n-alkane in degrees C at 101.325 kPa, C5 to C44 (ASTM D2887, see
/// data/alkane_boiling_points.tsv); nothing for others.
[[nodiscard]] std::optional<double> alkane_boiling_point(int carbon);

/// Boiling point in degrees C of the alkane-like substance that has a retention index on the
/// n-alkane scale of a non-polar phase: linear between neighbouring alkanes (the idea of ASTM
/// D2887). Polar compounds really boil higher, by 5 to 20 degrees. Throws InputError outside 500 to
/// 4400.
[[nodiscard]] double boiling_point_from_index(double index);

/// An alkane of a ladder with its boiling point.
struct BoilingMember {
    int carbon = 0;
    double time_min = 0.0;
    double celsius = 0.0;
};

/// What turns the times of a temperature-programmed run into boiling points.
struct BoilingScale {
    std::vector<BoilingMember> members; ///< two or more, in the order of elution
    std::vector<int> left_out;          ///< carbon numbers without boiling point
};

/// The scale of a ladder, whose gaps are interpolated across. Throws InputError unless it is one of
/// n-alkanes that `check_ladder` accepts and two members have a boiling point.
[[nodiscard]] BoilingScale boiling_scale(const Ladder &ladder);

/// A time on the scale.
struct ScaledTime {
    LadderPosition position = LadderPosition::inside;
    std::optional<double> celsius; ///< only inside: never extrapolated
};

/// Linear in time between neighbouring members; exactly their boiling point at a member.
[[nodiscard]] ScaledTime boiling_point_at(const BoilingScale &scale, double retention_time_min);

} // namespace cospot::quantities

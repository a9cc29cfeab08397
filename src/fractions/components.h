#pragma once

#include "fractions/fraction.h"

#include <vector>

namespace cospot::fractions {

/// A band goes on across this many plated fractions in which it was not seen; it ends where more
/// follow, and what runs alike later is another component.
inline constexpr int kMostMissed = 1;

/// Follows spots from fraction to fraction: a spot belongs to the band whose last three spots have
/// a mean R_F within `tolerance` of its own, bands and spots of a fraction paired in their order
/// (`pair_spots`), so that an R_F may drift from plate to plate, and two spots of one fraction are
/// two components. Fractions that nobody plated do not end a band. Components are named in the
/// order in which they leave.
[[nodiscard]] std::vector<Component> find_components(const std::vector<Fraction> &fractions,
                                                     double tolerance);

} // namespace cospot::fractions

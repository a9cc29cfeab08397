#pragma once

#include "fractions/fraction.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace cospot::fractions {

/// How a plate's R_F relates to that of the first plate.
struct PlateShift {
    std::string plate;
    double shift = 0.0; ///< R_F on this plate minus R_F on the plates before; was taken off
    std::size_t shared_fractions = 0; ///< that told it; 0: unknown, R_F taken as read
};

/// The fractions that were spotted on one or more plates.
struct PlatedFractions {
    std::vector<Fraction> fractions; ///< by number
    std::vector<PlateShift> shifts;  ///< of the second plate and those that follow
};

/// Brings all lanes together, plates in the order of their lowest fractions. A plate that shares
/// fractions with those before it is moved by the median difference of the shared spots (paired in
/// their order where both plates show as many, spots at R_F 0 and 1 left out: those cannot move);
/// one that shares none is taken as read. Spots that several lanes show of one fraction count as
/// one where they lie within `tolerance`: mean R_F, mean intensity.
[[nodiscard]] PlatedFractions read_together(std::vector<Lane> lanes, double tolerance);

} // namespace cospot::fractions

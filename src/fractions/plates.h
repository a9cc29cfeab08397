#pragma once

#include "fractions/fraction.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace cospot::fractions {

/// How a plate's R_F relates to that of the plates before it; it was taken off. Where neither
/// standards nor fractions told it, R_F was taken as read.
struct PlateShift {
    std::string plate;
    double shift = 0.0;    ///< R_F on this plate minus R_F on the plates before, by fractions
    double rm_shift = 0.0; ///< the same in R_M, by standards
    std::size_t shared_fractions = 0; ///< that told `shift`
    std::size_t shared_standards = 0; ///< that told `rm_shift`
};

/// The fractions that were spotted on one or more plates.
struct PlatedFractions {
    std::vector<Fraction> fractions; ///< by number
    std::vector<PlateShift> shifts;  ///< of the second plate and those that follow
};

/// Brings all lanes together, plates in the order of their lowest fractions. A plate that shares
/// standards with those before it is moved on the scale R_M = log10(1/R_F - 1) (Bate-Smith and
/// Westall, Biochim. Biophys. Acta 1950, 4, 427), by the median difference of the standards. One
/// that shares none, but fractions, is moved in R_F by the median difference of the shared spots
/// (paired in their order where both plates show as many); one that shares nothing is taken as
/// read. Spots at R_F 0 and 1 tell nothing and are not moved. Spots that several lanes show of one
/// fraction count as one where they lie within `tolerance`: mean R_F, mean intensity.
[[nodiscard]] PlatedFractions read_together(std::vector<Lane> lanes, double tolerance,
                                            const std::vector<StandardSpot> &standards = {});

} // namespace cospot::fractions

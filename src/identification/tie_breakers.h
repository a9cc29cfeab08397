#pragma once

#include "identification/identification.h"
#include "identification/measured_systems.h"
#include "library/ids.h"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace cospot {

/// Two groups are near each other where the likelier is less than this factor ahead of the other
/// and both are above the probability.
inline constexpr double kNearTieFactor = 3.0;
inline constexpr double kNearTieProbability = 0.1;

/// Two compounds on a system count as told apart from so many spreads on.
inline constexpr double kToldApart = 2.0;

inline constexpr std::size_t kMostTies = 3; ///< of one feature

/// Two candidates of a feature that a further measurement should decide between; positions in its
/// candidates.
struct Tie {
    std::size_t first = 0;
    std::size_t second = 0;
    bool stereoisomers = false; ///< they share the first block of the InChIKey
};

/// How far apart two compounds lie on a system.
struct Separation {
    std::string system;
    Quantity quantity = Quantity::Rf;
    double spreads = 0.0; ///< distance of the means in combined spreads, on the model scale
    double first = 0.0;   ///< means, in the unit of the quantity
    double second = 0.0;
};

/// Distance of the means in combined spreads, the root of the sum of squares of both scales.
[[nodiscard]] double spreads_apart(const matcher::CandidateDensity &a,
                                   const matcher::CandidateDensity &b);

/// The ties of a feature: the first candidates of groups that are near each other, and candidates
/// of one group with its first. At most `kMostTies`, those with the likeliest second candidate
/// first.
[[nodiscard]] std::vector<Tie> near_ties(const Identification &identification);

/// The system on which the two compounds lie farthest apart in units of the
/// combined spread, the root of the sum of squares of both scales. None where no system holds both.
[[nodiscard]] std::optional<Separation>
largest_separation(std::span<const MeasuredSystem *const> systems, library::CompoundId first,
                   library::CompoundId second);

} // namespace cospot

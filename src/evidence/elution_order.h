#pragma once

#include "library/database.h"
#include "library/systems.h"
#include "quantities/stationary_phase.h"
#include "shared/quantity.h"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace cospot {

/// What holds compounds back on a system.
enum class Mechanism {
    adsorption,     ///< normal phase: polar groups are held by silica, alumina and the like
    reversed_phase, ///< the less polar is held by an alkyl phase
    partition,      ///< paper and cellulose: the more polar stays in the water of the fibre
    volatility,     ///< gas chromatography on a phase without polar groups: boiling points
    polar_gas,      ///< gas chromatography on a polar phase: boiling points and hydrogen bonds
    unknown
};

/// From the technique and the words of the stationary and mobile phase.
[[nodiscard]] Mechanism mechanism_of(const library::System &system);
[[nodiscard]] Mechanism mechanism_of(quantities::LiquidPhase phase);

/// What leaves first and why, and what makes everything leave sooner, in two sentences.
[[nodiscard]] std::string elution_principle(Mechanism mechanism);

/// How the retention that the library measured on a system goes with the property of structures
/// that the mechanism speaks of.
struct OrderCheck {
    std::string property;     ///< in words
    double correlation = 0.0; ///< Spearman's, of retention and property; 1 is as expected
    std::size_t compounds = 0;
    bool goes_with = false;          ///< clearly positive: 0.5 or more, and hardly by chance
    bool contradicts = false;        ///< clearly negative
    std::vector<std::string> sooner; ///< compounds that leave far sooner than expected, at most 3
    std::vector<std::string> later;  ///< the same, later
};

/// Spearman's rank correlation, ties at their mean rank; 0 where one side does not vary. Throws
/// std::invalid_argument for spans of unequal size or fewer than two values.
[[nodiscard]] double rank_correlation(std::span<const double> x, std::span<const double> y);

/// Nothing for an unknown mechanism, or where fewer than ten described compounds were measured.
[[nodiscard]] std::optional<OrderCheck>
check_order(library::Database &database, const library::System &system, Quantity quantity);

/// Both in words, for a reader: the principle, then how the library's own values go with it.
[[nodiscard]] std::vector<std::string> elution_words(library::Database &database,
                                                     const library::System &system);

} // namespace cospot

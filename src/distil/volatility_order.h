#pragma once

#include "library/database.h"
#include "library/systems.h"
#include "quantities/stationary_phase.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cospot::distillation {

/// How a compound's retention compares with its boiling point.
enum class Standing { usual, early, late };

[[nodiscard]] inline std::string_view to_text(Standing standing) {
    switch (standing) {
    case Standing::usual:
        return "usual";
    case Standing::early:
        return "early";
    case Standing::late:
        break;
    }
    return "late";
}

/// A compound of a system by index and by boiling point; temperatures in degrees C.
struct ComparedCompound {
    std::string name;
    double index = 0.0;             ///< median of its retention indices, n-alkane scale
    double by_index = 0.0;          ///< boiling point of that index on the alkane scale
    double estimated = 0.0;         ///< boiling point from structure
    double standard_error = 0.0;    ///< of the estimate
    std::size_t place = 0;          ///< in the order of indices, from 1
    std::size_t expected_place = 0; ///< in the order of estimated boiling points, from 1
    Standing standing = Standing::usual;
};

/// What boiling points say about the order on a system.
struct VolatilityOrder {
    std::string system;
    std::string stationary_phase;
    quantities::GasPhase phase = quantities::GasPhase::unknown;
    std::vector<ComparedCompound> compounds; ///< in the order of indices
    double usual_difference = 0.0; ///< median of boiling point by index less estimated one
    double spread = 0.0;           ///< of that difference, from the median distance
    std::size_t ordered_pairs = 0; ///< pairs that leave in the order of their boiling points
    std::size_t pairs = 0;
    std::size_t left_out = 0; ///< compounds without estimate, or with an index off the scale
};

/// What the phase means for an order by boiling point.
[[nodiscard]] std::string_view phase_rule(quantities::GasPhase phase);

/// Compares all compounds of a system that have a retention index. One stands out where its
/// difference is off the usual one by more than twice the larger of the spread of all and the
/// standard error of its own estimate (our own choice): late is held longer than its boiling point
/// says. Loads RDKit. Throws InputError unless the system is of gas chromatography, counts indices
/// on the n-alkane scale and holds three compounds that can be compared.
[[nodiscard]] VolatilityOrder volatility_order(library::Database &database,
                                               const library::System &system);

} // namespace cospot::distillation

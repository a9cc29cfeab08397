#pragma once

#include "shared/quantity.h"

#include <cstdint>
#include <map>
#include <optional>
#include <span>

namespace cospot::matcher {

/// A value that the library holds for a compound on the system.
struct KnownValue {
    std::size_t compound; ///< index in the problem's list of compounds
    std::int64_t run;     ///< values of one run (of one day, where dates are known) shift together
    bool run_is_named;    ///< false: each value counts as a run of its own
    double value;         ///< in the unit of the quantity
    double uncertainty = 0.0;     ///< stated standard uncertainty, same unit; 0: none
    std::optional<double> year{}; ///< of the run's date, with its fraction; none: not dated
};

/// What all compounds of a run have in common: by how much its values lie above those of other
/// runs, on the model scale.
struct RunEffects {
    std::map<std::int64_t, double> shifts; ///< of the runs with enough compounds; others have none
    double variance = 0.0;                 ///< of the shifts between runs

    [[nodiscard]] double shift_of(const KnownValue &known) const;
};

/// A two-way analysis of the values, compounds against runs, with medians instead of means so that
/// mistyped values do not count; shifts are shrunken by how few compounds show them (empirical
/// Bayes). Nothing where fewer than five runs share compounds with others.
[[nodiscard]] RunEffects fit_run_effects(Quantity quantity, std::span<const KnownValue> values);

} // namespace cospot::matcher

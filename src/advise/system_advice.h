#pragma once

#include "advise/discrimination.h"
#include "identification/measured_systems.h"
#include "library/database.h"

#include <string>
#include <utility>
#include <vector>

namespace cospot {

/// How a set of systems tells compounds apart.
struct AdvisedSet {
    std::vector<std::string> systems;
    double discriminating_power = 0.0;
    double mean_list_length = 0.0;
};

/// Which systems of the library to run to tell some compounds apart.
struct SystemAdvice {
    std::vector<std::string> compounds;
    std::vector<AdvisedSet> alone; ///< every system by itself, the most discriminating first
    std::vector<AdvisedSet> sets;  ///< the best one, two, ... of them
    bool is_exact = true;
    std::size_t at_least = 0; ///< systems that any set as good needs
    /// Pairs that were measured on a system together, and that none tells apart: names.
    std::vector<std::pair<std::string, std::string>> inseparable;
    std::size_t never_together = 0; ///< pairs that no system holds both of
};

/// Two compounds are told apart on a system that holds both with means `kToldApart` combined
/// spreads apart; a compound that was not measured there is told apart from nobody. Throws
/// std::invalid_argument for fewer than two compounds.
[[nodiscard]] SystemAdvice advise_systems(const std::vector<library::CompoundId> &compounds,
                                          library::Database &database, MeasuredSystems &systems);

} // namespace cospot

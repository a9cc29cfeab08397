#pragma once

#include "fractions/fraction.h"
#include "fractions/pools.h"
#include "fractions/warnings.h"
#include "identification/identification.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// The component that the user wants.
struct PoolTarget {
    std::string asked;                    ///< as on the command line
    std::optional<std::size_t> component; ///< index in the run; none: no component fits
    std::optional<double> probability;    ///< where the library named it
};

/// All that `pool` says about one column.
struct PoolResult {
    fractions::ColumnRun run;
    fractions::Pooling pooling;
    std::vector<fractions::Warning> warnings;
    std::optional<double> tolerance;        ///< of R_F; of plates
    std::optional<double> threshold;        ///< of the signal; of a trace
    std::vector<Identification> candidates; ///< one a component, or empty
    std::optional<PoolTarget> target;
    std::optional<double> loaded_mg;
    std::vector<std::string> notes; ///< what was assumed
};

/// What is wrong with the wanted component; empty where nothing is.
[[nodiscard]] std::string target_fault(const PoolResult &result);

/// The mass of all fractions together, as far as it is known.
[[nodiscard]] fractions::PartialSum collected_mg(const PoolResult &result);

/// Whether somebody should look at something before fractions are combined.
[[nodiscard]] bool needs_attention(const PoolResult &result);

} // namespace cospot

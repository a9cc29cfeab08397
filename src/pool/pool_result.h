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

/// Whether the component at `index` is the wanted one.
[[nodiscard]] bool is_target(const PoolResult &result, std::size_t index);

/// Whether a target is wanted that no fraction shows alone, or that no component fits.
[[nodiscard]] bool misses_target(const PoolResult &result);

/// Whether somebody should look at something before fractions are combined.
[[nodiscard]] bool needs_attention(const PoolResult &result);

/// The mass of all fractions together, as far as it is known.
[[nodiscard]] fractions::PartialSum collected_mg(const PoolResult &result);

/// What a component shows in the fraction at that index, in which it was seen.
[[nodiscard]] const fractions::BandSpot &spot_in(const fractions::Component &component,
                                                 std::size_t fraction);

/// The lowest and the highest R_F of a component that has R_F.
struct RfRange {
    double low = 0.0;
    double high = 0.0;
};
[[nodiscard]] RfRange rf_range(const fractions::Component &component);

} // namespace cospot

#pragma once

#include "fractions/fraction.h"
#include "fractions/pools.h"

#include <cstddef>
#include <string_view>
#include <vector>

namespace cospot::fractions {

/// What somebody should look at before fractions are combined.
enum class WarningKind {
    order,      ///< the component leaves before another that should leave first
    gap,        ///< nobody looked at fractions within its band
    missed,     ///< it was not seen in a fraction within its band
    drift,      ///< its R_F wanders farther than one component should
    plate_edge, ///< it ends with one plate where the other begins on the next, almost alike
    seen_again, ///< the other runs alike and leaves later
    at_start,   ///< R_F 0: whatever does not move lies there
    at_front,   ///< R_F 1: whatever is not held lies there
    shoulder,   ///< the trace rises again without a deep valley
};

/// "order", "gap", ... as in the JSON.
[[nodiscard]] std::string_view to_text(WarningKind kind);

struct Warning {
    WarningKind kind = WarningKind::order;
    std::vector<std::size_t> components; ///< indices in the run; the one it is about first
    std::vector<FractionRange> fractions;
};

/// What is expected of the order in which components leave.
enum class ElutionOrder {
    by_rf, ///< plates and column have the same kind of phase: the highest R_F leaves first
    open,  ///< they have not
};

/// All that is to be said of a run whose spots were followed with `tolerance`. Two components
/// contradict the order where their R_F differ by more than the tolerance and the one that runs
/// farther on the plate neither begins nor ends before the other. Drift is a range of R_F above two
/// tolerances. What ends with one plate and begins with the next within three tolerances may be one
/// component on plates that ran differently.
[[nodiscard]] std::vector<Warning> find_warnings(const ColumnRun &run, const Pooling &pooling,
                                                 double tolerance, ElutionOrder order);

} // namespace cospot::fractions

#pragma once

#include "shared/quantity.h"

namespace cospot {

/// What a user must give so that peaks are compared with values of this quantity.
struct ComparableQuantity {
    const char *values;  ///< in words
    const char *options; ///< of the command line
};

[[nodiscard]] inline const ComparableQuantity &comparable_quantity(Quantity quantity) {
    static constexpr ComparableQuantity factors{"retention factors", "--hold-up MIN, no --ladder"};
    static constexpr ComparableQuantity indices{"retention indices", "--ladder FILE"};
    static constexpr ComparableQuantity times{"retention times", "no --ladder and no --hold-up"};
    static constexpr ComparableQuantity unadjusted{"relative retentions (RRT)", "no --ladder"};
    static constexpr ComparableQuantity adjusted{"relative retentions (r)",
                                                 "--hold-up MIN, no --ladder"};
    static constexpr ComparableQuantity retardation{"R_F", "R_F"};
    switch (quantity) {
    case Quantity::k:
        return factors;
    case Quantity::RI:
        return indices;
    case Quantity::tR:
        return times;
    case Quantity::RRT:
        return unadjusted;
    case Quantity::r:
        return adjusted;
    case Quantity::Rf:
        break;
    }
    return retardation;
}

} // namespace cospot

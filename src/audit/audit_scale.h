#pragma once

#include "matcher/retention_scale.h"

#include <algorithm>

namespace cospot {

/// The value on the matcher's model scale, on which replicates scatter about equally everywhere. An
/// R_F within the censored margin of the start or front counts as lying on it: there the transform
/// is so steep that spots at 0.97 and 1.00, which nobody tells apart, would seem to disagree.
[[nodiscard]] inline double audit_scale(Quantity quantity, double value) {
    if (quantity == Quantity::Rf) {
        value = std::clamp(value, matcher::kCensoredMargin, 1.0 - matcher::kCensoredMargin);
    }
    return matcher::to_model_scale(quantity, value);
}

} // namespace cospot

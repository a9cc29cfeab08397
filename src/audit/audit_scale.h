#pragma once

#include "audit/audited_system.h"
#include "model/matcher/retention_scale.h"
#include "model/matcher/spread.h"
#include "shared/robust.h"

#include <algorithm>
#include <utility>
#include <vector>

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

/// The spread between runs that is assumed on a system, model scale. Of times it depends on how
/// late its compounds leave: a tenth of them may be later, or mistyped.
[[nodiscard]] inline double assumed_spread_on(const AuditedSystem &system) {
    if (system.quantity != Quantity::tR || system.compounds.empty()) {
        return matcher::assumed_spread(system.technique, system.quantity);
    }
    std::vector<double> times;
    times.reserve(system.compounds.size());
    for (const AuditedCompound &compound : system.compounds) {
        times.push_back(compound.values.front().value);
    }
    return matcher::assumed_spread(system.technique, system.quantity,
                                   upper_decile(std::move(times)));
}

} // namespace cospot

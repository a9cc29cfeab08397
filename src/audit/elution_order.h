#pragma once

#include "audit/audited_system.h"
#include "audit/finding.h"
#include "library/ids.h"

#include <map>
#include <string>
#include <vector>

namespace cospot {

/// What the check of elution order remembers of all systems: one value a compound and system.
struct OrderTable {
    struct Value {
        library::CompoundId compound{};
        double scaled = 0.0;                  ///< median, model scale
        library::MeasurementId measurement{}; ///< the value nearest to it
    };
    struct System {
        std::string name;
        double clear = 0.0;        ///< values farther apart than this elute in a clear order
        std::vector<Value> values; ///< in the order of compounds
    };
    /// Systems whose orders can be compared: same technique, quantity, index scale and stationary
    /// phase, which must be stated.
    std::map<std::string, std::vector<System>> families;
    std::map<library::CompoundId, std::string> names;
};

/// Systems whose orders are compared with each other have the same text; empty where the order is
/// compared with that of no other.
[[nodiscard]] std::string order_family(const AuditedSystem &system);

void add_to_order_table(OrderTable &table, const AuditedSystem &system);

/// Compounds that elute on one system in another order than elsewhere. The order of two compounds
/// is clear where they differ by more than 4 spreads (replicate_spread(), at least
/// assumed_spread()) on the model scale; R_F below 0.05 or above 0.95 count as these, because spots
/// near the ends cannot be read apart. It is contradicted on a system where
/// it is clear and the opposite on that system alone, and clear and unanimous on two or more others
/// of the family. A compound is a finding on a system where it contradicts at least three partners
/// and at least a third of those that it can be compared with; the worst one is taken out with all
/// its contradictions before the next one is judged, so that its partners are not blamed for it.
/// These limits are our own choice: another mobile phase or programme turns some pairs round
/// rightly, and they leave those alone. They find about half of R_F values that are wrong by 0.4.
///
/// Each compound is compared with at most 200 others, spread evenly over the family.
[[nodiscard]] std::vector<Finding> elution_order_findings(const OrderTable &table);

} // namespace cospot

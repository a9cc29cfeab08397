#pragma once

#include "library/ids.h"
#include "shared/quantity.h"

#include <string>
#include <vector>

namespace cospot {

/// One value that holds.
struct AuditedValue {
    library::MeasurementId measurement{};
    library::RunId run{};
    bool run_is_named = true; ///< false: nobody wrote down the run
    std::string date;         ///< of the run: YYYY-MM-DD, YYYY-MM, YYYY or empty
    double value = 0.0;       ///< in the unit of the quantity
};

/// All values of one compound on one system, at least one.
struct AuditedCompound {
    library::CompoundId id{};
    std::string name;
    std::vector<AuditedValue> values;
};

/// All values of one quantity on one system, compounds in the order of their ids.
struct AuditedSystem {
    library::SystemId id{};
    std::string name;
    Technique technique = Technique::tlc;
    std::string stationary_phase; ///< empty: not stated
    std::string scale;            ///< of the retention index
    Quantity quantity = Quantity::Rf;
    std::vector<AuditedCompound> compounds;
};

} // namespace cospot

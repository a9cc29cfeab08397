#pragma once

#include "audit/finding.h"
#include "library/database.h"
#include "shared/quantity.h"

#include <cstdint>
#include <string>
#include <vector>

namespace cospot {

/// A value as a finding shows it.
struct ShownValue {
    std::string compound;
    std::string system;
    Quantity quantity = Quantity::Rf;
    double value = 0.0;
    std::string run;
    std::string date;
};

/// A structure as a finding shows it.
struct ShownStructure {
    std::string name;
    std::string inchikey;
    std::string smiles;
    std::int64_t values = 0; ///< that hold
};

/// A finding with all that is shown of it.
struct ShownFinding {
    struct Value {
        FindingRow row;
        ShownValue value;
    };
    Finding finding;
    std::vector<Value> values;
    std::vector<ShownStructure> structures;
};
[[nodiscard]] ShownFinding shown_finding(library::Database &database, Finding finding);

} // namespace cospot

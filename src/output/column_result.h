#pragma once

#include "expectation/eluent_advice.h"
#include "fractions/column_plan.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace cospot {

/// All that `column` says.
struct ColumnResult {
    fractions::ColumnPlan plan;
    fractions::ColumnSettings settings;
    std::map<std::string, ExpectedRetention> expected; ///< by name, where R_F is from the library
    std::string mobile_phase;                          ///< of the plate; empty where not stated
    std::string strong_solvent;                        ///< of it, by eps0; empty where not known
    std::optional<EluentChange> change;                ///< none without a target
    EluentAdvice eluents;
    std::vector<std::string> notes;

    [[nodiscard]] bool needs_attention() const { return !plan.findings.empty(); }
};

} // namespace cospot

#pragma once

#include "expectation/eluent_advice.h"
#include "fractions/column_plan.h"

#include <algorithm>
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
    std::string system;         ///< of the plate, in the library; empty: none was named
    std::string mobile_phase;   ///< of the plate; empty where not stated
    std::string strong_solvent; ///< of it, by eps0; empty where not known
    std::vector<std::string> eluent_doubts{}; ///< why it is not known, a clause each
    std::optional<EluentChange> change;       ///< none without a target
    EluentAdvice eluents;
    fractions::HoldOut held_out; ///< of a column of one's own
    std::vector<std::string> notes;

    /// Whether runs of the column were learned.
    [[nodiscard]] bool is_calibrated() const { return settings.own && !settings.own->seen.empty(); }
    /// Whether the maximum of one of their bands is known.
    [[nodiscard]] bool has_peaks() const {
        return is_calibrated() &&
               std::any_of(settings.own->seen.begin(), settings.own->seen.end(),
                           [](const auto &band) { return band.peak_ml.has_value(); });
    }
    [[nodiscard]] bool needs_attention() const { return !plan.findings.empty(); }
};

} // namespace cospot

#pragma once

#include "audit/audited_system.h"
#include "audit/finding.h"
#include "library/ids.h"

#include <map>
#include <string>
#include <vector>

namespace cospot {

/// What the coverage check remembers of all systems: a few numbers a compound.
struct CoverageTally {
    struct Compound {
        library::SystemId only_system{};      ///< while `is_on_one_system`
        library::MeasurementId measurement{}; ///< its first value
        bool is_on_one_system = true;
    };
    struct System {
        library::SystemId id{};
        std::string name;
        Quantity quantity = Quantity::Rf;
        std::vector<library::MeasurementId> first_measurements; ///< of up to five compounds
        std::size_t compounds = 0;
        bool has_compound_in_two_runs = false;
        std::size_t runs = 0;    ///< with a name or a date
        std::size_t undated = 0; ///< of them
    };
    std::map<library::CompoundId, Compound> compounds;
    std::vector<System> systems;
};

/// So many compounds stand for a system that is thin; fewer make it thin.
inline constexpr std::size_t kFewCompounds = 5;

void add_to_coverage(CoverageTally &tally, const AuditedSystem &system);

/// Where the library is thin: systems with fewer than five compounds, systems without a compound in
/// two runs (their spread has to be assumed) or with five or more runs of which most are not dated
/// (those of one day cannot be told to belong together), and, one finding a system, the compounds
/// that were measured nowhere else (rows: the first value of each).
[[nodiscard]] std::vector<Finding> coverage_findings(const CoverageTally &tally);

} // namespace cospot

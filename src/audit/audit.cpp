#include "audit/audit.h"

#include "audit/audit_data.h"
#include "audit/coverage.h"
#include "audit/drift.h"
#include "audit/elution_order.h"
#include "audit/identity_conflicts.h"
#include "audit/physical_range.h"
#include "audit/replicates.h"

#include <algorithm>
#include <iterator>

namespace cospot {

std::vector<Finding> audit_library(library::Database &database, const std::set<FindingKind> &kinds,
                                   const std::function<void()> &after_system) {
    std::vector<Finding> findings;
    const auto keep = [&](std::vector<Finding> found) {
        std::move(found.begin(), found.end(), std::back_inserter(findings));
    };
    const auto is_chosen = [&](FindingKind kind) { return kinds.count(kind) > 0; };
    OrderTable orders;
    CoverageTally coverage;
    for_each_audited_system(database, [&](const AuditedSystem &system) {
        if (is_chosen(FindingKind::replicates)) {
            keep(replicate_findings(system));
        }
        if (is_chosen(FindingKind::drift)) {
            keep(drift_findings(system));
        }
        if (is_chosen(FindingKind::physical_range)) {
            keep(physical_range_findings(system));
        }
        if (is_chosen(FindingKind::elution_order)) {
            add_to_order_table(orders, system);
        }
        if (is_chosen(FindingKind::coverage)) {
            add_to_coverage(coverage, system);
        }
        after_system();
    });
    keep(elution_order_findings(orders));
    keep(coverage_findings(coverage));
    if (is_chosen(FindingKind::identity)) {
        keep(identity_findings(audited_structures(database)));
    }
    std::stable_sort(findings.begin(), findings.end(),
                     [](const Finding &a, const Finding &b) { return a.kind < b.kind; });
    return findings;
}

} // namespace cospot

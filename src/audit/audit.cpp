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
#include <string>
#include <utility>

namespace cospot {

namespace {

/// What the systems are read for.
struct Wanted {
    bool is_all = true;                  ///< the whole library
    std::set<library::SystemId> systems; ///< else: whose own findings are wanted
    std::set<std::string> families;      ///< and whose orders are compared with theirs

    [[nodiscard]] bool for_itself(const AuditedSystem &system) const {
        return is_all || systems.contains(system.id);
    }
    [[nodiscard]] bool for_orders(const AuditedSystem &system) const {
        return is_all || families.contains(order_family(system));
    }
};

Wanted wanted_systems(library::Database &database, const AuditQuestion &question,
                      const std::vector<AuditedSystem> &all) {
    Wanted wanted{.is_all = !question.compound && !question.system, .systems = {}, .families = {}};
    if (question.compound) {
        wanted.systems = systems_of_compound(database, *question.compound);
    } else if (question.system) {
        wanted.systems = {*question.system};
    }
    for (const AuditedSystem &system : all) {
        if (wanted.systems.contains(system.id)) {
            wanted.families.insert(order_family(system));
        }
    }
    wanted.families.erase("");
    return wanted;
}

/// Whether a finding on all of the system can rest on a value of the compound: replicates and drift
/// need several of its values, a thin system is shown by its first compounds, and a compound that
/// was measured nowhere else is named.
bool can_rest_on(library::Database &database, const AuditedSystem &system,
                 library::CompoundId compound, const Wanted &wanted) {
    return wanted.systems.size() == 1 || values_of_compound(database, system, compound) > 1 ||
           is_among_first(database, system, compound, kFewCompounds);
}

/// Notes the values of the system that the question is about.
void note_values(const AuditQuestion &question, const AuditedSystem &system,
                 std::set<library::MeasurementId> &noted) {
    for (const AuditedCompound &compound : system.compounds) {
        if (question.system == system.id || question.compound == compound.id) {
            for (const AuditedValue &value : compound.values) {
                noted.insert(value.measurement);
            }
        }
    }
}

/// Of the systems that were not read, some may hold the compounds too. Where several systems hold
/// the compound that is asked for, those with one system are of no interest.
void complete_coverage(library::Database &database, const Wanted &wanted, CoverageTally &tally) {
    for (auto &[id, compound] : tally.compounds) {
        compound.is_on_one_system = compound.is_on_one_system && wanted.systems.size() == 1 &&
                                    !is_on_another_system(database, id, compound.only_system);
    }
}

/// Leaves the findings with a value or the structure that the question is about.
void narrow_findings(const AuditQuestion &question, const std::set<library::MeasurementId> &values,
                     std::vector<Finding> &findings) {
    std::erase_if(findings, [&](const Finding &finding) {
        return std::none_of(
                   finding.rows.begin(), finding.rows.end(),
                   [&](const FindingRow &row) { return values.contains(row.measurement); }) &&
               std::none_of(finding.structures.begin(), finding.structures.end(),
                            [&](library::CompoundId id) { return id == question.compound; });
    });
}

/// What was found up to now, and what is judged once all systems were read.
struct Gathered {
    std::vector<Finding> findings;
    OrderTable orders;
    CoverageTally coverage;
    std::set<library::MeasurementId> values; ///< that the question is about

    void keep(std::vector<Finding> found) {
        std::move(found.begin(), found.end(), std::back_inserter(findings));
    }
};

/// Reads as much of the system as is needed, and forgets it again.
void look_at(library::Database &database, const AuditQuestion &question, const Wanted &wanted,
             AuditedSystem system, Gathered &gathered) {
    const auto is_chosen = [&](FindingKind kind) { return question.kinds.contains(kind); };
    const bool is_asked_for = wanted.for_itself(system);
    const bool is_judged =
        is_asked_for &&
        (!question.compound || can_rest_on(database, system, *question.compound, wanted));
    const bool is_compared = is_chosen(FindingKind::elution_order) && wanted.for_orders(system);
    if (is_judged || is_compared) {
        read_values(database, system);
    } else if (is_asked_for) {
        read_values(database, system, question.compound);
    }
    note_values(question, system, gathered.values);
    if (is_judged && is_chosen(FindingKind::replicates)) {
        gathered.keep(replicate_findings(system));
    }
    if (is_judged && is_chosen(FindingKind::drift)) {
        gathered.keep(drift_findings(system));
    }
    if (is_asked_for && is_chosen(FindingKind::physical_range)) {
        gathered.keep(physical_range_findings(system));
    }
    if (is_compared) {
        add_to_order_table(gathered.orders, system);
    }
    if (is_judged && is_chosen(FindingKind::coverage)) {
        add_to_coverage(gathered.coverage, system);
    }
}

} // namespace

std::vector<Finding> audit_library(library::Database &database, const AuditQuestion &question,
                                   const std::function<void()> &after_system) {
    const std::vector<AuditedSystem> systems = audited_systems(database);
    const Wanted wanted = wanted_systems(database, question, systems);
    Gathered gathered;
    for (const AuditedSystem &system : systems) {
        look_at(database, question, wanted, system, gathered);
        after_system();
    }
    gathered.keep(elution_order_findings(gathered.orders));
    if (!wanted.is_all) {
        complete_coverage(database, wanted, gathered.coverage);
    }
    gathered.keep(coverage_findings(gathered.coverage));
    if (question.kinds.contains(FindingKind::identity) && !question.system) {
        gathered.keep(identity_findings(audited_structures(database, question.compound)));
    }
    std::vector<Finding> findings = std::move(gathered.findings);
    if (!wanted.is_all) {
        narrow_findings(question, gathered.values, findings);
    }
    std::stable_sort(findings.begin(), findings.end(),
                     [](const Finding &a, const Finding &b) { return a.kind < b.kind; });
    return findings;
}

} // namespace cospot

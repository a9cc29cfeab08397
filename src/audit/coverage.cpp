#include "audit/coverage.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace cospot {

namespace {

constexpr std::size_t kFewRuns = 5;

/// A value whose run nobody wrote down counts as a run of its own, as it does for the matcher.
bool is_in_two_runs(const AuditedCompound &compound) {
    const AuditedValue &first = compound.values.front();
    return std::any_of(
        compound.values.begin() + 1, compound.values.end(),
        [&](const AuditedValue &value) { return value.run != first.run || !value.run_is_named; });
}

std::vector<FindingRow> rows_of(const std::vector<library::MeasurementId> &measurements) {
    std::vector<FindingRow> rows;
    rows.reserve(measurements.size());
    for (const library::MeasurementId measurement : measurements) {
        rows.push_back({measurement, false});
    }
    return rows;
}

void add_thin_system(const CoverageTally::System &system, std::vector<Finding> &findings) {
    if (system.compounds < kFewCompounds) {
        findings.push_back(
            {.kind = FindingKind::coverage,
             .subject = system.name,
             .text = fmt::format("Only {} {} an {} on this system: most samples will be unlisted.",
                                 system.compounds,
                                 system.compounds == 1 ? "compound has" : "compounds have",
                                 to_text(system.quantity)),
             .advice = "Measure the compounds that you expect in samples here, or do not identify "
                       "on this system.",
             .rows = rows_of(system.first_measurements)});
    }
    if (!system.has_compound_in_two_runs) {
        findings.push_back(
            {.kind = FindingKind::coverage,
             .subject = system.name,
             .text = fmt::format("No compound has its {} from two runs: how far values scatter "
                                 "from run to run is assumed, not learned.",
                                 to_text(system.quantity)),
             .advice = "Run at least five of its compounds again on another day.",
             .rows = rows_of(system.first_measurements)});
    }
}

void add_undated_runs(const CoverageTally::System &system, std::vector<Finding> &findings) {
    if (system.undated < kFewRuns || 2 * system.undated <= system.runs) {
        return;
    }
    findings.push_back(
        {.kind = FindingKind::coverage,
         .subject = system.name,
         .text = fmt::format("{} of {} runs have no date: those of one day count as independent "
                             "runs, so that the spread between runs comes out too small.",
                             system.undated, system.runs),
         .advice = "Learn the values with the dates of their runs; those of one day then count "
                   "together.",
         .rows = rows_of(system.first_measurements)});
}

} // namespace

void add_to_coverage(CoverageTally &tally, const AuditedSystem &system) {
    CoverageTally::System summary{.id = system.id,
                                  .name = system.name,
                                  .quantity = system.quantity,
                                  .first_measurements = {},
                                  .compounds = system.compounds.size(),
                                  .has_compound_in_two_runs = false};
    std::set<library::RunId> runs;
    std::set<library::RunId> undated;
    for (const AuditedCompound &compound : system.compounds) {
        for (const AuditedValue &value : compound.values) {
            if (value.run_is_named && runs.insert(value.run).second && value.date.empty()) {
                undated.insert(value.run);
            }
        }
        const library::MeasurementId measurement = compound.values.front().measurement;
        summary.has_compound_in_two_runs |= is_in_two_runs(compound);
        if (summary.first_measurements.size() < kFewCompounds) {
            summary.first_measurements.push_back(measurement);
        }
        const auto [held, is_new] = tally.compounds.try_emplace(
            compound.id, CoverageTally::Compound{system.id, measurement});
        if (!is_new && held->second.only_system != system.id) {
            held->second.is_on_one_system = false;
        }
    }
    summary.runs = runs.size();
    summary.undated = undated.size();
    tally.systems.push_back(std::move(summary));
}

std::vector<Finding> coverage_findings(const CoverageTally &tally) {
    std::vector<Finding> findings;
    std::map<library::SystemId, std::vector<library::MeasurementId>> only_here;
    for (const auto &[id, compound] : tally.compounds) {
        if (compound.is_on_one_system) {
            only_here[compound.only_system].push_back(compound.measurement);
        }
    }
    for (const CoverageTally::System &system : tally.systems) {
        add_thin_system(system, findings);
        add_undated_runs(system, findings);
        const auto found = only_here.find(system.id);
        if (found == only_here.end()) {
            continue;
        }
        const std::size_t count = found->second.size();
        findings.push_back(
            {.kind = FindingKind::coverage,
             .subject = system.name,
             .text =
                 fmt::format("{} measured on no other system.",
                             count == 1 ? "1 compound is" : fmt::format("{} compounds are", count)),
             .advice = "Measure them on a second system of another selectivity: one value seldom "
                       "tells compounds apart.",
             .rows = rows_of(found->second)});
        only_here.erase(found); // a system with two quantities is visited twice
    }
    return findings;
}

} // namespace cospot

#include "evidence/run_standards.h"

#include "library/names.h"

#include <fmt/format.h>

#include <optional>

namespace cospot {

namespace {

/// Index of the compound that a standard is; a new one is appended.
std::size_t index_of(const std::string &name, const std::optional<library::Compound> &held,
                     LibraryEvidence &evidence) {
    if (const auto index = held ? index_of_compound(evidence, held->id) : std::nullopt) {
        return *index;
    }
    const std::string key = held ? held->inchikey : "";
    for (std::size_t i = 0; i < evidence.proposed.size(); ++i) {
        const ProposedStructure &other = evidence.proposed[i];
        if (other.name == name || (!key.empty() && other.inchikey == key)) {
            return evidence.compound_ids.size() + i;
        }
    }
    evidence.proposed.push_back({held ? held->name : name, key, held ? held->smiles : ""});
    return compound_count(evidence) - 1;
}

Where where_named(const RunStandard &standard) {
    Where where = standard.observation.where;
    where.column = standard.name_column.empty() ? where.column : standard.name_column;
    return where;
}

} // namespace

void add_standards(LibraryEvidence &evidence, library::Database &database,
                   const std::vector<RunStandard> &standards, std::vector<std::string> &notes) {
    for (const RunStandard &standard : standards) {
        const auto held = compound_if_named(database, standard.compound, where_named(standard));
        if (held && held->retired) {
            notes.push_back(fmt::format("standard {}: retired in the library; it is left out as a "
                                        "candidate",
                                        standard.compound));
            continue;
        }
        const auto system = find_model(evidence, standard.observation);
        if (!system) {
            notes.push_back(fmt::format("standard {}: no feature was seen by {} on {}; it is left "
                                        "out",
                                        standard.compound, to_text(standard.observation.quantity),
                                        standard.observation.system));
            continue;
        }
        evidence.standards.push_back(
            {standard, index_of(standard.compound, held, evidence), *system});
    }
}

void add_cospots(LibraryEvidence &evidence, library::Database &database,
                 const std::vector<CoSpot> &cospots) {
    for (const CoSpot &cospot : cospots) {
        const auto held = compound_if_named(database, cospot.standard, {});
        if (!held || !held->retired) { // else `add_standards` says so
            evidence.cospots.emplace_back(cospot, index_of(cospot.standard, held, evidence));
        }
    }
}

} // namespace cospot

#include "expectation/proposed_compounds.h"

#include "shared/student_t.h"

#include <fmt/format.h>

#include <algorithm>

namespace cospot {

namespace {

/// Index of the compound among the candidates; a new one is appended.
std::size_t index_for(LibraryEvidence &evidence, const AskedCompound &asked) {
    if (asked.id) {
        if (const auto held = index_of_compound(evidence, *asked.id)) {
            return *held;
        }
    }
    evidence.proposed.push_back({asked.name, asked.inchikey, asked.smiles});
    return compound_count(evidence) - 1;
}

matcher::CandidateDensity density_of(const ExpectedRetention &expected, std::size_t compound) {
    matcher::CandidateDensity density;
    density.compound = compound;
    density.basis = expected.basis;
    density.location = expected.prediction->location;
    density.scale = expected.prediction->scale;
    density.freedom = expected.prediction->freedom;
    density.log_constant = student_t_constant(density.freedom);
    density.mean = expected.expected;
    density.runs = expected.compounds;
    return density;
}

void insert_sorted(matcher::SystemModel &model, const matcher::CandidateDensity &density) {
    const auto place =
        std::upper_bound(model.candidates.begin(), model.candidates.end(), density,
                         [](const auto &a, const auto &b) { return a.compound < b.compound; });
    model.candidates.insert(place, density);
    model.by_location.clear();
}

} // namespace

std::vector<std::string> propose_compounds(LibraryEvidence &evidence, library::Database &database,
                                           const std::vector<AskedCompound> &asked) {
    std::vector<library::System> systems;
    for (const ModelledSystem &modelled : evidence.systems) {
        systems.push_back(modelled.system);
    }
    RetentionModels models(database);
    const auto expected = expected_retention(models, asked, systems);
    std::vector<std::string> notes;
    for (std::size_t i = 0; i < asked.size(); ++i) {
        const std::size_t compound = index_for(evidence, asked[i]);
        for (std::size_t s = 0; s < evidence.systems.size(); ++s) {
            if (matcher::find_candidate(evidence.knowledge.systems[s], compound) != nullptr) {
                continue; // measured there
            }
            for (const ExpectedRetention &one : expected[i]) {
                if (one.system != evidence.systems[s].system.name ||
                    one.quantity != evidence.systems[s].quantity) {
                    continue;
                }
                if (one.prediction) {
                    insert_sorted(evidence.knowledge.systems[s], density_of(one, compound));
                } else {
                    notes.push_back(fmt::format("{} on {}: not predicted, {}", asked[i].name,
                                                one.system, one.refusal));
                }
            }
        }
    }
    evidence.nearby = matcher::nearby_candidates(evidence.knowledge);
    return notes;
}

} // namespace cospot

#include "purity/hidden.h"

#include "library/compounds.h"
#include "library/descriptions.h"
#include "model/matcher/basis_text.h"
#include "model/matcher/ranking.h"
#include "structures/structure_service.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace cospot::purity {

namespace {

constexpr double kSpreadsApart = 2.0;

/// By how many spreads the worst observation is off; empty without any to compare.
std::optional<double> distance_of(const std::vector<matcher::Comparison> &comparisons) {
    std::optional<double> worst;
    for (const matcher::Comparison &comparison : comparisons) {
        const double spreads = std::abs(comparison.deviation) / comparison.spread;
        worst = std::max(worst.value_or(0.0), spreads);
    }
    return worst;
}

/// Why the compound hardly leaves a gas chromatograph; empty where it does.
std::string why_not_volatile(const library::Compound &compound,
                             const std::optional<library::Description> &description) {
    constexpr double highest_K = 450.0 + 273.15;
    if (compound.smiles.find('.') != std::string::npos ||
        (description && description->formal_charge != 0)) {
        return "a salt does not evaporate";
    }
    const auto boiling = structure_service().boiling_points(compound.smiles);
    if (boiling.model.kelvin && *boiling.model.kelvin > highest_K) {
        return fmt::format("estimated to boil at {:.0f} degrees C", *boiling.model.kelvin - 273.15);
    }
    return "";
}

} // namespace

std::vector<std::string> compounds_at(const Feature &feature, const std::string &except,
                                      const LibraryEvidence &evidence,
                                      library::Database &database) {
    const auto observations = observations_of(feature, evidence);
    std::vector<std::pair<double, std::string>> near;
    for (std::size_t i = 0; i < evidence.compound_ids.size(); ++i) {
        const auto comparisons = matcher::compare(i, observations, evidence.knowledge.systems);
        const auto distance = distance_of(comparisons);
        if (!distance || *distance > kSpreadsApart) {
            continue;
        }
        const auto compound = library::find_compound(database, evidence.compound_ids[i]);
        if (compound && compound->name != except) {
            near.emplace_back(*distance, fmt::format("{} ({})", compound->name,
                                                     matcher::to_text(comparisons.front().basis)));
        }
    }
    std::sort(near.begin(), near.end());
    std::vector<std::string> names;
    names.reserve(near.size());
    for (auto &[distance, name] : near) {
        names.push_back(std::move(name));
    }
    return names;
}

std::vector<std::string> hardly_seen(const Declaration &declaration, const Detection &detection,
                                     library::Database &database) {
    std::vector<std::string> reasons;
    for (const library::CompoundId id : declaration.expected_ids) {
        const auto compound = library::find_compound(database, id);
        const auto description = library::description_of(database, id);
        if (!compound) {
            continue;
        }
        if (detection.detector != nullptr) {
            const std::string reason = why_hardly_seen(*detection.detector, *compound, description);
            if (!reason.empty()) {
                reasons.push_back(compound->name + ": " + reason);
            }
        }
        if (detection.technique == Technique::gc) {
            const std::string reason = why_not_volatile(*compound, description);
            if (!reason.empty()) {
                reasons.push_back(compound->name + ": " + reason);
            }
        }
    }
    return reasons;
}

} // namespace cospot::purity

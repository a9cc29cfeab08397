#include "advise/system_advice.h"

#include "identification/tie_breakers.h"
#include "library/compounds.h"
#include "library/damage.h"

#include <algorithm>
#include <optional>
#include <stdexcept>

namespace cospot {

namespace {

/// What one system says of the pairs.
struct SeenPairs {
    Pairs apart;
    Pairs together; ///< both were measured
};

SeenPairs pairs_on(const MeasuredSystem &system,
                   const std::vector<library::CompoundId> &compounds) {
    const std::size_t n = compounds.size();
    std::vector<const matcher::CandidateDensity *> densities;
    densities.reserve(n);
    for (const library::CompoundId compound : compounds) {
        densities.push_back(
            matcher::find_candidate(system.model, static_cast<std::size_t>(compound)));
    }
    SeenPairs seen{Pairs(n * (n - 1) / 2), Pairs(n * (n - 1) / 2)};
    for (std::size_t a = 0; a < n; ++a) {
        for (std::size_t b = a + 1; b < n && densities[a] != nullptr; ++b) {
            if (densities[b] != nullptr) {
                const std::size_t pair = pair_index(a, b, n);
                seen.together.set(pair);
                seen.apart.set(pair, spreads_apart(*densities[a], *densities[b]) >= kToldApart);
            }
        }
    }
    return seen;
}

AdvisedSet described(std::vector<std::string> systems, std::size_t compounds, const Pairs &pairs) {
    return {std::move(systems), discriminating_power(compounds, pairs.size() - pairs.count()),
            mean_list_length(compounds, pairs)};
}

} // namespace

SystemAdvice advise_systems(const std::vector<library::CompoundId> &compounds,
                            library::Database &database, MeasuredSystems &systems) {
    if (compounds.size() < 2) {
        throw std::invalid_argument("two compounds or more");
    }
    SystemAdvice advice;
    for (const library::CompoundId compound : compounds) {
        advice.compounds.push_back(
            library::sound(library::find_compound(database, compound), database).name);
    }
    const std::size_t n = compounds.size();
    Discrimination discrimination{n, {}};
    std::vector<std::string> names;
    Pairs together(n * (n - 1) / 2);
    const std::vector<std::optional<library::CompoundId>> ids(compounds.begin(), compounds.end());
    for (const MeasuredSystem *system : systems.holding_several(ids, {})) {
        names.push_back(system->name);
        const SeenPairs seen = pairs_on(*system, compounds);
        together |= seen.together;
        discrimination.told_apart.push_back(seen.apart);
        advice.alone.push_back(described({system->name}, n, discrimination.told_apart.back()));
    }
    std::stable_sort(advice.alone.begin(), advice.alone.end(), [](const auto &a, const auto &b) {
        return a.discriminating_power > b.discriminating_power;
    });
    const SystemChoice choice = choose_systems(discrimination);
    advice.is_exact = choice.is_exact;
    advice.at_least = choice.at_least;
    for (const SystemSet &set : choice.sets) {
        std::vector<std::string> members;
        for (const std::size_t system : set.systems) {
            members.push_back(names[system]);
        }
        advice.sets.push_back(described(std::move(members), n, set.told_apart));
    }
    const Pairs best = choice.sets.empty() ? Pairs(n * (n - 1) / 2) : choice.sets.back().told_apart;
    for (std::size_t a = 0; a < n; ++a) {
        for (std::size_t b = a + 1; b < n; ++b) {
            const std::size_t pair = pair_index(a, b, n);
            if (!best.test(pair) && together.test(pair)) {
                advice.inseparable.emplace_back(advice.compounds[a], advice.compounds[b]);
            }
        }
    }
    advice.never_together = together.size() - together.count();
    return advice;
}

} // namespace cospot

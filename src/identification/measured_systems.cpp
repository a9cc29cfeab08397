#include "identification/measured_systems.h"

#include "evidence/fitted_system.h"
#include "library/damage.h"
#include "library/overview.h"
#include "library/systems.h"

namespace cospot {

std::vector<const MeasuredSystem *>
MeasuredSystems::holding_both(library::CompoundId first, library::CompoundId second,
                              const std::set<std::string> &without) {
    std::vector<const MeasuredSystem *> result;
    const std::set<Key> &other = systems_of(second);
    for (const Key &key : systems_of(first)) {
        if (other.contains(key) && !without.contains(key.first)) {
            result.push_back(&fitted(key));
        }
    }
    return result;
}

std::vector<const MeasuredSystem *>
MeasuredSystems::holding_several(std::span<const std::optional<library::CompoundId>> compounds,
                                 const std::set<std::string> &without) {
    std::map<Key, std::size_t> counts;
    for (const auto &compound : compounds) {
        if (compound) {
            for (const Key &key : systems_of(*compound)) {
                ++counts[key];
            }
        }
    }
    std::vector<const MeasuredSystem *> result;
    for (const auto &[key, count] : counts) {
        if (count > 1 && !without.contains(key.first)) {
            result.push_back(&fitted(key));
        }
    }
    return result;
}

const std::set<MeasuredSystems::Key> &MeasuredSystems::systems_of(library::CompoundId compound) {
    const auto [entry, is_new] = of_compound_.try_emplace(compound);
    std::set<Key> &keys = entry->second;
    if (is_new) {
        for (const auto &[system, quantity] :
             library::quantities_of_compound(*database_, compound)) {
            keys.insert({system, quantity});
        }
    }
    return keys;
}

const MeasuredSystem &MeasuredSystems::fitted(const Key &key) {
    const auto [entry, is_new] = fitted_.try_emplace(key);
    if (is_new) {
        const auto &[name, quantity] = key;
        const library::System system =
            library::sound(library::find_system(*database_, name), *database_);
        entry->second = {name, system.technique, quantity,
                         fitted_system(*database_, system.id, quantity)};
    }
    return entry->second;
}

} // namespace cospot

#include "expectation/system_family.h"

#include "library/compounds.h"
#include "library/measurements.h"
#include "model/matcher/retention_scale.h"
#include "shared/eluent.h"
#include "shared/solvent_names.h"

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <utility>

namespace cospot {

namespace {

/// Volume fractions by solvent, whatever a system calls it.
using Composition = std::map<std::string, double>;

Composition composition_of(const library::System &system) {
    Composition composition;
    if (!system.mobile_phase.empty()) {
        const auto eluent = parse_eluent(system.mobile_phase, {});
        const auto fractions = volume_fractions(eluent);
        for (std::size_t i = 0; i < eluent.size(); ++i) {
            composition[solvent_key(eluent[i].solvent)] += fractions[i];
        }
    }
    return composition;
}

bool is_related(const library::System &a, const library::System &b, Quantity quantity) {
    const bool depends_on_mixture = quantity == Quantity::Rf || quantity == Quantity::k;
    return a.id == b.id ||
           (depends_on_mixture && a.technique == b.technique && !a.stationary_phase.empty() &&
            a.stationary_phase == b.stationary_phase && a.programme == b.programme &&
            !a.mobile_phase.empty() && !b.mobile_phase.empty());
}

void set_mixtures(SystemFamily &family) {
    std::vector<Composition> compositions;
    std::set<std::string> solvents;
    for (const library::System &system : family.systems) {
        compositions.push_back(composition_of(system));
        for (const auto &[solvent, fraction] : compositions.back()) {
            solvents.insert(solvent);
        }
    }
    for (const Composition &composition : compositions) {
        prediction::Mixture mixture;
        if (family.systems.size() > 1) {
            for (const std::string &solvent : solvents) {
                const auto found = composition.find(solvent);
                mixture.push_back(found == composition.end() ? 0.0 : found->second);
            }
        }
        family.table.mixtures.push_back(std::move(mixture));
    }
}

void read_values(library::Database &database, SystemFamily &family) {
    for (std::size_t mixture = 0; mixture < family.systems.size(); ++mixture) {
        std::map<library::CompoundId, std::pair<double, std::size_t>> sums; // and how many values
        for (const library::HeldValue &held :
             library::values_on_system(database, family.systems[mixture].id, family.quantity)) {
            auto &[sum, count] = sums[held.compound];
            sum += matcher::to_model_scale(family.quantity, held.value);
            ++count;
        }
        for (const auto &[compound, sum] : sums) {
            family.own_values[compound].push_back(
                {mixture, sum.first / static_cast<double>(sum.second)});
        }
    }
}

void fill_table(library::Database &database, SystemFamily &family, KeptFeatures &features) {
    std::vector<library::CompoundId> ids;
    for (const auto &[compound, values] : family.own_values) {
        ids.push_back(compound);
    }
    ids = library::in_order_of_inchikeys(database, std::move(ids)); // the choice goes by it
    const std::size_t used = std::min(ids.size(), kMostTrainingCompounds);
    for (std::size_t i = 0; i < used; ++i) {
        const library::CompoundId id = ids[i * ids.size() / used];
        family.compounds.push_back(id);
        for (const OwnValue &own : family.own_values.at(id)) {
            family.table.values.push_back({i, own.mixture, own.value});
        }
    }
    family.table.compounds = features.of(family.compounds);
}

} // namespace

SystemFamily system_family(library::Database &database, const library::System &system,
                           Quantity quantity, KeptFeatures &features) {
    SystemFamily family;
    family.quantity = quantity;
    for (library::System &other : library::all_systems(database)) {
        if (is_related(system, other, quantity)) {
            family.systems.push_back(std::move(other));
        }
    }
    set_mixtures(family);
    read_values(database, family);
    fill_table(database, family, features);
    return family;
}

} // namespace cospot

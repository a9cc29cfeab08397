#include "expectation/system_family.h"

#include "expectation/compound_features.h"
#include "library/compounds.h"
#include "library/damage.h"
#include "library/measurements.h"
#include "matcher/retention_scale.h"
#include "shared/eluent.h"
#include "shared/text.h"

#include <algorithm>
#include <map>
#include <set>
#include <string>

namespace cospot {

namespace {

/// Volume fractions by solvent.
using Composition = std::map<std::string, double>;

Composition composition_of(const library::System &system) {
    Composition composition;
    if (!system.mobile_phase.empty()) {
        const auto eluent = parse_eluent(system.mobile_phase, {});
        const auto fractions = volume_fractions(eluent);
        for (std::size_t i = 0; i < eluent.size(); ++i) {
            composition[lower_ascii(eluent[i].solvent)] += fractions[i];
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

/// Values by compound, then by mixture, on the model scale.
using Values = std::map<std::int64_t, std::map<std::size_t, std::vector<double>>>;

Values read_values(library::Database &database, const SystemFamily &family,
                   std::optional<std::int64_t> without) {
    Values values;
    for (std::size_t mixture = 0; mixture < family.systems.size(); ++mixture) {
        for (const library::HeldValue &held :
             library::values_on_system(database, family.systems[mixture].id, family.quantity)) {
            if (held.compound != without) {
                values[held.compound][mixture].push_back(
                    matcher::to_model_scale(family.quantity, held.value));
            }
        }
    }
    return values;
}

void fill_table(SystemFamily &family, const Values &values, library::Database &database) {
    std::vector<std::int64_t> ids;
    for (const auto &[compound, rows] : values) {
        ids.push_back(compound);
    }
    const std::size_t used = std::min(ids.size(), kMostTrainingCompounds);
    family.left_out = ids.size() - used;
    std::vector<std::string> smiles;
    for (std::size_t i = 0; i < used; ++i) {
        const std::int64_t id = ids[i * ids.size() / used];
        family.compounds.push_back(id);
        smiles.push_back(library::sound(library::find_compound(database, id), database).smiles);
        for (const auto &[mixture, readings] : values.at(id)) {
            double sum = 0.0;
            for (const double reading : readings) {
                sum += reading;
            }
            family.table.values.push_back({i, mixture, sum / static_cast<double>(readings.size())});
        }
    }
    family.table.compounds = features_of(smiles);
}

} // namespace

SystemFamily family_of(library::Database &database, const library::System &system,
                       Quantity quantity, std::optional<std::int64_t> without) {
    SystemFamily family;
    family.quantity = quantity;
    for (library::System &other : library::all_systems(database)) {
        if (is_related(system, other, quantity)) {
            family.target = other.id == system.id ? family.systems.size() : family.target;
            family.systems.push_back(std::move(other));
        }
    }
    set_mixtures(family);
    fill_table(family, read_values(database, family, without), database);
    return family;
}

} // namespace cospot

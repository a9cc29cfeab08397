#include "expectation/retention_models.h"

#include "evidence/fitted_system.h"
#include "library/journal.h"
#include "matcher/retention_scale.h"

#include <algorithm>
#include <numbers>

namespace cospot {

prediction::Range possible_range(Quantity quantity) {
    return quantity == Quantity::Rf ? prediction::Range{0.0, std::numbers::pi / 2}
                                    : prediction::Range{};
}

std::optional<std::size_t> FittedFamily::position_of(std::int64_t compound) const {
    const auto found =
        std::lower_bound(family_.compounds.begin(), family_.compounds.end(), compound);
    return found != family_.compounds.end() && *found == compound
               ? std::optional(static_cast<std::size_t>(found - family_.compounds.begin()))
               : std::nullopt;
}

FittedFamily::Fitted FittedFamily::fit(Purpose purpose) {
    const prediction::Range range = possible_range(family_.quantity);
    const bool is_through_own = purpose == Purpose::own_curves;
    Fitted fitted;
    if (prediction::measured_compounds(family_.table) < prediction::kFewestCompounds) {
        return fitted;
    }
    if (const auto kept = kept_prediction(*database_, family_, purpose)) {
        fitted.model = prediction::structure_model_from(family_.table, range, kept->structure);
        fitted.curves.calibration = kept->own_curves;
        return fitted;
    }
    fitted.model =
        prediction::fit_structure_model(family_.table, range,
                                        is_through_own ? prediction::SearchGoal::own_curves
                                                       : prediction::SearchGoal::unseen_compounds);
    if (is_through_own) {
        fitted.curves.calibration = prediction::fit_composition_curves(*fitted.model).calibration;
    }
    new_[purpose] = {prediction::fit_of(*fitted.model), fitted.curves.calibration};
    return fitted;
}

const FittedFamily::Fitted &FittedFamily::fitted(Purpose purpose) {
    const auto [entry, is_new] = fitted_.try_emplace(purpose);
    if (is_new) {
        entry->second = fit(purpose);
        entry->second.curves.model = entry->second.model ? &*entry->second.model : nullptr;
    }
    return entry->second;
}

const prediction::StructureModel *FittedFamily::structure_model() {
    const Fitted &found = fitted(Purpose::unseen_compounds);
    return found.model ? &*found.model : nullptr;
}

const prediction::CompositionCurves *FittedFamily::curves() {
    const Fitted &found = fitted(Purpose::own_curves);
    return found.model ? &found.curves : nullptr;
}

const prediction::NeighbourRegression *
FittedFamily::neighbours(const std::vector<std::size_t> &known, std::size_t target) {
    const auto [entry, is_new] = neighbours_.try_emplace(std::pair(known, target));
    if (is_new) {
        const bool is_rf = family_.quantity == Quantity::Rf;
        prediction::RetentionTable table = family_.table;
        for (prediction::RetentionValue &value : table.values) {
            value.value =
                is_rf ? matcher::from_model_scale(family_.quantity, value.value) : value.value;
        }
        entry->second = prediction::fit_neighbours(
            table, known, target, is_rf ? prediction::Range{0.0, 1.0} : prediction::Range{});
    }
    return entry->second ? &*entry->second : nullptr;
}

void FittedFamily::store_new(library::Database &writer) {
    for (const auto &[purpose, fit] : new_) {
        store_prediction(writer, family_, purpose, fit);
    }
    new_.clear();
}

const matcher::SystemModel &RetentionModels::measured_on(const library::System &system,
                                                         Quantity quantity) {
    const auto [entry, is_new] = measured_.try_emplace({system.id, quantity});
    if (is_new) {
        entry->second = fitted_system(*database_, system.id, quantity);
    }
    return entry->second;
}

FittedFamily &RetentionModels::family_of(const library::System &system, Quantity quantity) {
    for (const auto &fitted : families_) {
        const auto &systems = fitted->family().systems;
        if (fitted->family().quantity == quantity &&
            std::any_of(systems.begin(), systems.end(),
                        [&](const library::System &member) { return member.id == system.id; })) {
            return *fitted;
        }
    }
    families_.push_back(std::make_unique<FittedFamily>(
        *database_, system_family(*database_, system, quantity, features_)));
    return *families_.back();
}

void RetentionModels::keep() {
    const bool has_new =
        features_.has_new() || std::any_of(families_.begin(), families_.end(),
                                           [](const auto &family) { return family->has_new(); });
    // Who may only read makes no journal beside the library (library/connection.h).
    if (!has_new || !library::is_writable(library::behind_links(database_->file()))) {
        return;
    }
    try {
        library::Database writer(database_->file(), library::Access::write);
        writer.execute("PRAGMA busy_timeout = 0"); // nobody waits for what can be made again
        library::Transaction transaction(writer);
        features_.store_new(writer);
        for (const auto &family : families_) {
            family->store_new(writer);
        }
        transaction.commit();
    } catch (const library::DatabaseError &) {
        // Read-only, in use or full: the next command fits again.
    }
}

} // namespace cospot

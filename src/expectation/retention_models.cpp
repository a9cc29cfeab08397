#include "expectation/retention_models.h"

#include "expectation/kept_prediction.h"
#include "library/overview.h"

#include <algorithm>
#include <numbers>

namespace cospot {

prediction::Range possible_range(Quantity quantity) {
    return quantity == Quantity::Rf ? prediction::Range{0.0, std::numbers::pi / 2}
                                    : prediction::Range{};
}

const prediction::StructureModel *FittedFamily::structure_model() {
    const bool is_enough =
        prediction::measured_compounds(family_.table) >= prediction::kFewestCompounds;
    if (!was_tried_ && is_enough) {
        const prediction::Range range = possible_range(family_.quantity);
        if (const auto kept = kept_prediction(*database_, family_)) {
            model_ = prediction::structure_model_from(family_.table, range, *kept);
        } else {
            model_ = prediction::fit_structure_model(family_.table, range);
            new_ = prediction::fit_of(*model_);
        }
    }
    was_tried_ = true;
    return model_ ? &*model_ : nullptr;
}

void FittedFamily::store_new(library::Database &writer) {
    if (new_) {
        store_prediction(writer, family_, *new_);
        new_.reset();
    }
}

std::vector<ModelledSystem> RetentionModels::asked_on(const std::vector<library::System> &systems) {
    std::vector<ModelledSystem> asked;
    for (const library::System &system : systems) {
        for (const Quantity quantity : library::quantities_on_system(*database_, system.id)) {
            asked.push_back({system, quantity});
        }
    }
    return asked;
}

const LibraryEvidence &RetentionModels::known_on(const std::vector<ModelledSystem> &asked) {
    std::vector<std::pair<library::SystemId, Quantity>> key;
    for (const ModelledSystem &modelled : asked) {
        key.emplace_back(modelled.system.id, modelled.quantity);
    }
    const auto [entry, is_new] = known_.try_emplace(std::move(key));
    if (is_new) {
        entry->second = load_evidence_on(*database_, asked);
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
    if (!has_new) {
        return;
    }
    try {
        database_->execute("COMMIT"); // a change is written when nobody reads
        library::Database writer(database_->file(), library::Access::write);
        writer.execute("PRAGMA busy_timeout = 0"); // nobody waits for what can be made again
        library::Transaction transaction(writer);
        features_.store_new(writer);
        for (const auto &family : families_) {
            family->store_new(writer);
        }
        transaction.commit_quietly();
    } catch (const library::DatabaseError &) {
        // Read-only, in use or full: the next command fits again.
    }
}

} // namespace cospot

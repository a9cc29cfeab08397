#include "evidence/fitted_system.h"

#include "evidence/fit_bytes.h"
#include "library/fits.h"
#include "library/overview.h"
#include "library/systems.h"

#include <optional>
#include <string_view>
#include <utility>

namespace cospot {

matcher::SystemModel fit_held(Quantity quantity, const std::vector<library::HeldValue> &held) {
    std::vector<matcher::KnownValue> known;
    known.reserve(held.size());
    for (const library::HeldValue &value : held) {
        known.push_back({static_cast<std::size_t>(value.compound), value.session,
                         value.run_is_named, value.value});
    }
    return matcher::fit_system(quantity, known);
}

matcher::SystemModel fitted_system(library::Database &database, std::int64_t system,
                                   Quantity quantity) {
    std::optional<matcher::SystemModel> kept;
    library::read_fit(database, system, quantity, kFitVersion,
                      [&](std::string_view bytes) { kept = model_from_bytes(quantity, bytes); });
    return kept ? std::move(*kept)
                : fit_held(quantity, library::values_on_system(database, system, quantity));
}

namespace {

void keep_missing(library::Database &database) {
    library::Transaction transaction(database);
    for (const library::System &system : library::all_systems(database)) {
        for (const Quantity quantity : library::quantities_on_system(database, system.id)) {
            const auto kept = library::kept_fit(database, system.id, quantity);
            if (!kept || kept->version != kFitVersion) {
                const auto held = library::values_on_system(database, system.id, quantity);
                library::store_fit(database, system.id, quantity, kFitVersion,
                                   static_cast<std::int64_t>(held.size()),
                                   to_bytes(fit_held(quantity, held)));
            }
        }
    }
    transaction.commit();
}

} // namespace

void keep_fits(library::Database &database) {
    try {
        keep_missing(database);
    } catch (const library::DatabaseError &) {
        // E.g. the disk is full. The change itself is stored; answers take a little longer.
    }
}

} // namespace cospot

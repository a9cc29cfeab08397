#include "library/predictions.h"

namespace cospot::library {

namespace {

std::optional<std::string> first_blob(Statement &query) {
    std::optional<std::string> bytes;
    if (query.step()) {
        bytes = query.blob(0);
    }
    query.reset();
    return bytes;
}

} // namespace

std::optional<std::string> kept_features(Database &database, CompoundId compound) {
    return first_blob(database.cached("SELECT bytes FROM structure_features WHERE compound_id = ?1")
                          .bind(1, compound));
}

void store_features(Database &database, CompoundId compound, std::string_view bytes) {
    database
        .cached("INSERT INTO structure_features (compound_id, bytes) VALUES (?1, ?2) "
                "ON CONFLICT (compound_id) DO UPDATE SET bytes = excluded.bytes")
        .bind(1, compound)
        .bind_blob(2, bytes)
        .run();
}

std::optional<std::string> kept_prediction_fit(Database &database, SystemId system,
                                               Quantity quantity) {
    return first_blob(database
                          .cached("SELECT f.bytes FROM prediction_system AS s "
                                  "JOIN prediction_fit AS f ON f.id = s.fit_id "
                                  "WHERE s.system_id = ?1 AND f.quantity = ?2")
                          .bind(1, system)
                          .bind(2, cospot::to_text(quantity)));
}

void store_prediction_fit(Database &database, std::span<const SystemId> systems, Quantity quantity,
                          std::string_view bytes) {
    for (const SystemId system : systems) {
        database
            .cached("DELETE FROM prediction_fit WHERE quantity = ?2 AND id IN "
                    "(SELECT fit_id FROM prediction_system WHERE system_id = ?1)")
            .bind(1, system)
            .bind(2, cospot::to_text(quantity))
            .run();
    }
    database.cached("INSERT INTO prediction_fit (quantity, bytes) VALUES (?1, ?2)")
        .bind(1, cospot::to_text(quantity))
        .bind_blob(2, bytes)
        .run();
    const FitId fit = database.last_insert_id<FitId>();
    for (const SystemId system : systems) {
        database.cached("INSERT INTO prediction_system (system_id, fit_id) VALUES (?1, ?2)")
            .bind(1, system)
            .bind(2, fit)
            .run();
    }
}

} // namespace cospot::library

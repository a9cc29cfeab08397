#include "library/fits.h"

namespace cospot::library {

void read_fit(Database &database, std::int64_t system, Quantity quantity, std::int64_t version,
              const std::function<void(std::string_view)> &read) {
    Statement &query =
        database.cached("SELECT model FROM fit WHERE system_id = ?1 AND quantity = ?2 "
                        "AND version = ?3");
    if (query.bind(1, system).bind(2, to_text(quantity)).bind(3, version).step()) {
        read(query.blob(0));
    }
    query.reset();
}

void store_fit(Database &database, std::int64_t system, Quantity quantity, std::int64_t version,
               std::int64_t values, std::string_view model) {
    database
        .cached("INSERT OR REPLACE INTO fit (system_id, quantity, version, value_count, model) "
                "VALUES (?1, ?2, ?3, ?4, ?5)")
        .bind(1, system)
        .bind(2, to_text(quantity))
        .bind(3, version)
        .bind(4, values)
        .bind_blob(5, model)
        .run();
}

std::optional<KeptFit> kept_fit(Database &database, std::int64_t system, Quantity quantity) {
    Statement &query = database.cached(
        "SELECT version, value_count FROM fit WHERE system_id = ?1 AND quantity = ?2");
    std::optional<KeptFit> kept;
    if (query.bind(1, system).bind(2, to_text(quantity)).step()) {
        kept = {query.integer(0), query.integer(1)};
    }
    query.reset();
    return kept;
}

} // namespace cospot::library

#include "library/fits.h"

#include "library/damage.h"
#include "shared/number.h"

#include <fmt/format.h>

namespace cospot::library {

std::string origin_of_fit(Database &database, SystemId system, Quantity quantity) {
    Statement &query =
        database.cached("SELECT count(*), total(value), total(value * compound_id), total(run_id) "
                        "FROM measurement WHERE system_id = ?1 AND quantity = ?2 "
                        "AND superseded_by IS NULL AND retired_change_id IS NULL");
    if (!query.bind(1, system).bind(2, to_text(quantity)).step()) {
        report_damage(database);
    }
    std::string origin = fmt::format("{} {} {} {} {} {}", system, to_text(quantity),
                                     query.integer(0), exact_text(query.real(1)),
                                     exact_text(query.real(2)), exact_text(query.real(3)));
    query.reset();
    return origin;
}

std::optional<KeptFit> kept_fit(Database &database, SystemId system, Quantity quantity) {
    Statement &query = database.cached(
        "SELECT id, version, value_count FROM fit WHERE system_id = ?1 AND quantity = ?2");
    std::optional<KeptFit> kept;
    if (query.bind(1, system).bind(2, to_text(quantity)).step()) {
        kept = {query.id<FitId>(0), query.integer(1), query.integer(2)};
    }
    query.reset();
    return kept;
}

void read_summary(Database &database, const KeptFit &fit, const ReadBytes &read) {
    Statement &query = database.cached("SELECT summary FROM fit WHERE id = ?1");
    if (query.bind(1, fit.id).step()) {
        read(query.blob(0));
    }
    query.reset();
}

void read_parts(Database &database, const KeptFit &fit, std::size_t first, std::size_t last,
                const ReadBytes &read) {
    Statement &query = database.cached("SELECT candidates FROM fit_part WHERE fit_id = ?1 "
                                       "AND number BETWEEN ?2 AND ?3 ORDER BY number");
    query.bind(1, fit.id);
    query.bind(2, static_cast<std::int64_t>(first)).bind(3, static_cast<std::int64_t>(last));
    while (query.step()) {
        read(query.blob(0));
    }
    query.reset();
}

std::size_t count_parts(Database &database, const KeptFit &fit) {
    Statement &query = database.cached("SELECT count(*) FROM fit_part WHERE fit_id = ?1");
    const std::int64_t count = query.bind(1, fit.id).step() ? query.integer(0) : 0;
    query.reset();
    return static_cast<std::size_t>(count);
}

void store_fit(Database &database, SystemId system, Quantity quantity, std::int64_t version,
               std::int64_t values, std::string_view summary, std::span<const std::string> parts) {
    database.cached("DELETE FROM fit WHERE system_id = ?1 AND quantity = ?2")
        .bind(1, system)
        .bind(2, to_text(quantity))
        .run();
    database
        .cached("INSERT INTO fit (system_id, quantity, version, value_count, summary) "
                "VALUES (?1, ?2, ?3, ?4, ?5)")
        .bind(1, system)
        .bind(2, to_text(quantity))
        .bind(3, version)
        .bind(4, values)
        .bind_blob(5, summary)
        .run();
    const FitId fit = database.last_insert_id<FitId>();
    Statement &insert =
        database.cached("INSERT INTO fit_part (fit_id, number, candidates) VALUES (?1, ?2, ?3)");
    for (std::size_t number = 0; number < parts.size(); ++number) {
        insert.bind(1, fit).bind(2, static_cast<std::int64_t>(number));
        insert.bind_blob(3, parts[number]).run();
    }
}

} // namespace cospot::library

#include "library/responses.h"

#include <map>

namespace cospot::library {

namespace {

Response read_row(const Statement &row) {
    return {row.id<CompoundId>(0), row.id<CompoundId>(1), row.id<SystemId>(2), row.real(3),
            row.text(4),           row.text(5),           row.text(6)};
}

/// Factors relative to one compound, by the other; the reverse pairs turned round.
std::map<CompoundId, double> factors_of(Database &database, SystemId system, CompoundId compound) {
    Statement &query = database.cached(
        "SELECT compound_id, relative_to_id, factor FROM response "
        "WHERE system_id = ?1 AND (compound_id = ?2 OR relative_to_id = ?2) ORDER BY id");
    query.bind(1, system).bind(2, compound);
    std::map<CompoundId, double> factors{{compound, 1.0}};
    while (query.step()) {
        const auto first = query.id<CompoundId>(0);
        if (first == compound) {
            factors[query.id<CompoundId>(1)] = query.real(2);
        } else {
            factors[first] = 1.0 / query.real(2);
        }
    }
    query.reset();
    return factors;
}

} // namespace

bool add_response(Database &database, const Response &response, ChangeId change) {
    Statement &query = database.cached(
        "SELECT 1 FROM response WHERE compound_id = ?1 AND relative_to_id = ?2 AND system_id = ?3 "
        "AND factor = ?4 AND date = ?5 AND source = ?6 AND note = ?7");
    const bool is_held = query.bind(1, response.compound)
                             .bind(2, response.relative_to)
                             .bind(3, response.system)
                             .bind(4, response.factor)
                             .bind(5, response.date)
                             .bind(6, response.source)
                             .bind(7, response.note)
                             .step();
    query.reset();
    if (is_held) {
        return false;
    }
    database
        .cached("INSERT INTO response (compound_id, relative_to_id, system_id, factor, date, "
                "source, note, change_id) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)")
        .bind(1, response.compound)
        .bind(2, response.relative_to)
        .bind(3, response.system)
        .bind(4, response.factor)
        .bind(5, response.date)
        .bind(6, response.source)
        .bind(7, response.note)
        .bind(8, change)
        .run();
    return true;
}

std::vector<Response> all_responses(Database &database) {
    Statement query = database.prepare(
        "SELECT compound_id, relative_to_id, system_id, factor, date, source, note FROM response "
        "ORDER BY id");
    std::vector<Response> responses;
    while (query.step()) {
        responses.push_back(read_row(query));
    }
    return responses;
}

std::vector<ResponseRecord> response_records(Database &database) {
    Statement query = database.prepare(
        "SELECT c.name, o.name, s.name, r.factor, r.date, r.source, r.note FROM response AS r "
        "JOIN compound AS c ON c.id = r.compound_id "
        "JOIN compound AS o ON o.id = r.relative_to_id "
        "JOIN system AS s ON s.id = r.system_id ORDER BY r.id");
    std::vector<ResponseRecord> records;
    while (query.step()) {
        records.push_back({query.text(0), query.text(1), query.text(2), query.real(3),
                           query.text(4), query.text(5), query.text(6)});
    }
    return records;
}

std::optional<double> response_factor(Database &database, SystemId system, CompoundId compound,
                                      CompoundId relative_to) {
    const auto of_compound = factors_of(database, system, compound);
    const auto direct = of_compound.find(relative_to);
    if (direct != of_compound.end()) {
        return direct->second;
    }
    for (const auto &[shared, factor] : factors_of(database, system, relative_to)) {
        const auto found = of_compound.find(shared);
        if (found != of_compound.end()) {
            return found->second / factor;
        }
    }
    return std::nullopt;
}

} // namespace cospot::library

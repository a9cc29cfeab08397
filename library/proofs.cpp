#include "library/proofs.h"

namespace cospot::library {

void add_proof(Database &database, const Proof &proof, std::int64_t change) {
    database
        .cached("INSERT INTO proof (technique, several_systems, questions, exponent, "
                "least_in_set, calibration_error, change_id) "
                "VALUES (?, ?, ?, ?, ?, ?, ?)")
        .bind(1, to_text(proof.technique))
        .bind(2, std::int64_t{proof.several_systems})
        .bind(3, proof.questions)
        .bind(4, proof.exponent)
        .bind(5, proof.least_in_set)
        .bind(6, proof.calibration_error)
        .bind(7, change)
        .run();
}

std::optional<Proof> newest_proof(Database &database, Technique technique, bool several_systems) {
    Statement &query = database.cached(
        "SELECT p.questions, p.exponent, p.least_in_set, p.calibration_error, "
        "c.at_utc FROM proof AS p JOIN change AS c ON c.id = p.change_id "
        "WHERE p.technique = ?1 AND p.several_systems = ?2 ORDER BY p.id DESC LIMIT 1");
    query.bind(1, to_text(technique)).bind(2, std::int64_t{several_systems});
    std::optional<Proof> proof;
    if (query.step()) {
        proof = Proof{technique,     several_systems, query.integer(0), query.real(1),
                      query.real(2), query.real(3),   query.text(4)};
    }
    query.reset();
    return proof;
}

std::string newest_proof_day(Database &database) {
    Statement query =
        database.prepare("SELECT substr(c.at_utc, 1, 10) FROM proof AS p JOIN change AS c "
                         "ON c.id = p.change_id ORDER BY p.id DESC LIMIT 1");
    return query.step() ? query.text(0) : "";
}

} // namespace cospot::library

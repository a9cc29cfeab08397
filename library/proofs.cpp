#include "library/proofs.h"

#include "library/damage.h"

#include <cmath>

namespace cospot::library {

std::string to_text(ProofQuestion question) {
    switch (question) {
    case ProofQuestion::run:
        return "run";
    case ProofQuestion::day:
        return "day";
    case ProofQuestion::new_system:
        return "new_system";
    }
    return "";
}

namespace {

/// Whether it can have been learned: corrections far beyond are no correction of probabilities.
bool is_sound(const Proof &proof) {
    constexpr double most_exponent = 100.0; // the search would need 100 steps of a whole prior
    constexpr double most_offset = 50.0;
    const auto is_exponent = [](double x) { return x > 1.0 / most_exponent && x < most_exponent; };
    const auto is_share = [](double x) { return x >= 0.0 && x <= 1.0; };
    return proof.questions > 0 && is_exponent(proof.measured_exponent) &&
           is_exponent(proof.transferred_exponent) &&
           std::abs(proof.unlisted_offset) < most_offset && is_share(proof.measured_limit) &&
           is_share(proof.transferred_limit) && is_share(proof.unlisted_limit) &&
           is_share(proof.calibration_error);
}

/// The last change that corrected the structure of a compound with values of the technique ?1.
#define LAST_CORRECTION                                                                            \
    "(SELECT ifnull(max(f.change_id), 0) FROM former_structure AS f WHERE EXISTS "                 \
    "(SELECT 1 FROM measurement AS m JOIN system AS s ON s.id = m.system_id "                      \
    "WHERE m.compound_id = f.compound_id AND s.technique = ?1))"

} // namespace

void add_proof(Database &database, const Proof &proof, ChangeId change) {
    database
        .cached("INSERT INTO proved_question (technique, question, systems, questions, "
                "measured_exponent, transferred_exponent, unlisted_offset, measured_limit, "
                "transferred_limit, unlisted_limit, calibration_error, change_id) "
                "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")
        .bind(1, to_text(proof.technique))
        .bind(2, to_text(proof.question))
        .bind(3, proof.systems)
        .bind(4, proof.questions)
        .bind(5, proof.measured_exponent)
        .bind(6, proof.transferred_exponent)
        .bind(7, proof.unlisted_offset)
        .bind(8, proof.measured_limit)
        .bind(9, proof.transferred_limit)
        .bind(10, proof.unlisted_limit)
        .bind(11, proof.calibration_error)
        .bind(12, change)
        .run();
}

std::optional<Proof> newest_proof(Database &database, Technique technique, ProofQuestion question,
                                  std::int64_t systems) {
    // An older proof does not speak where the newest asked nothing: the library has changed.
    Statement &query = database.cached(
        "SELECT p.questions, p.measured_exponent, p.transferred_exponent, p.unlisted_offset, "
        "p.measured_limit, p.transferred_limit, p.unlisted_limit, p.calibration_error, c.at_utc "
        "FROM proved_question AS p JOIN change AS c ON c.id = p.change_id "
        "WHERE p.technique = ?1 AND p.question = ?2 AND p.systems = ?3 AND p.change_id = "
        "(SELECT max(change_id) FROM proved_question WHERE technique = ?1) "
        "AND p.change_id > " LAST_CORRECTION " "
        "ORDER BY p.id DESC LIMIT 1");
    query.bind(1, to_text(technique)).bind(2, to_text(question)).bind(3, systems);
    std::optional<Proof> proof;
    if (query.step()) {
        proof = Proof{technique,     question,      systems,       query.integer(0),
                      query.real(1), query.real(2), query.real(3), query.real(4),
                      query.real(5), query.real(6), query.real(7), query.text(8)};
        if (!is_sound(*proof)) {
            report_damage(database);
        }
    }
    query.reset();
    return proof;
}

std::string day_of_proof_before_correction(Database &database, Technique technique) {
    Statement &query =
        database.cached("SELECT substr(at_utc, 1, 10) FROM change WHERE id = "
                        "(SELECT max(change_id) FROM proved_question WHERE technique = ?1) "
                        "AND id < " LAST_CORRECTION);
    std::string day = query.bind(1, to_text(technique)).step() ? query.text(0) : "";
    query.reset();
    return day;
}

std::string newest_proof_day(Database &database) {
    Statement query =
        database.prepare("SELECT substr(c.at_utc, 1, 10) FROM proved_question AS p JOIN change AS "
                         "c ON c.id = p.change_id ORDER BY p.id DESC LIMIT 1");
    return query.step() ? query.text(0) : "";
}

std::string day_of_outdated_proof(Database &database) {
    Statement query = database.prepare(
        "SELECT substr(c.at_utc, 1, 10) FROM proof AS p JOIN change AS c ON c.id = p.change_id "
        "WHERE NOT EXISTS (SELECT 1 FROM proved_question) ORDER BY p.id DESC LIMIT 1");
    return query.step() ? query.text(0) : "";
}

} // namespace cospot::library

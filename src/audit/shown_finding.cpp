#include "audit/shown_finding.h"

#include "library/damage.h"

#include <stdexcept>
#include <utility>

namespace cospot {

namespace {

ShownValue shown_value(library::Database &database, library::MeasurementId measurement) {
    library::Statement &query = database.cached(
        "SELECT c.name, s.name, m.quantity, m.value, r.name, r.date FROM measurement AS m "
        "JOIN compound AS c ON c.id = m.compound_id JOIN system AS s ON s.id = m.system_id "
        "JOIN run AS r ON r.id = m.run_id WHERE m.id = ?1");
    if (!query.bind(1, measurement).step()) {
        throw std::logic_error("a finding names a value that the library does not hold");
    }
    ShownValue value{.compound = query.text(0),
                     .system = query.text(1),
                     .quantity = library::sound(quantity_from_text(query.text(2)), database),
                     .value = query.real(3),
                     .run = query.text(4),
                     .date = query.text(5)};
    query.reset();
    return value;
}

ShownStructure shown_structure(library::Database &database, library::CompoundId compound) {
    library::Statement &query = database.cached(
        "SELECT name, inchikey, smiles, (SELECT count(*) FROM measurement WHERE compound_id = ?1 "
        "AND superseded_by IS NULL AND retired_change_id IS NULL) FROM compound WHERE id = ?1");
    if (!query.bind(1, compound).step()) {
        throw std::logic_error("a finding names a compound that the library does not hold");
    }
    ShownStructure structure{query.text(0), query.text(1), query.text(2), query.integer(3)};
    query.reset();
    return structure;
}

} // namespace

ShownFinding shown_finding(library::Database &database, Finding finding) {
    ShownFinding shown;
    for (const FindingRow &row : finding.rows) {
        shown.values.push_back({row, shown_value(database, row.measurement)});
    }
    for (const library::CompoundId compound : finding.structures) {
        shown.structures.push_back(shown_structure(database, compound));
    }
    shown.finding = std::move(finding);
    return shown;
}

} // namespace cospot

#include "library/relatives.h"

#include "library/damage.h"

#include <string>

namespace cospot::library {

std::vector<Compound> find_relatives(Database &database, const Compound &compound) {
    // The first block of an InChIKey is a range of the index on the whole key ('.' follows '-').
    const std::string skeleton = compound.inchikey.substr(0, 14);
    Statement &query = database.cached(
        "SELECT id FROM compound WHERE inchikey >= ?1 || '-' AND inchikey < ?1 || '.' "
        "UNION SELECT id FROM compound WHERE parent_inchikey = ?2 "
        "UNION SELECT id FROM compound WHERE tautomer = ?3 AND ?3 <> ''");
    query.bind(1, skeleton).bind(2, compound.parent_inchikey).bind(3, compound.tautomer);
    std::vector<CompoundId> ids;
    while (query.step()) {
        ids.push_back(query.id<CompoundId>(0));
    }
    query.reset();
    std::vector<Compound> relatives;
    for (const CompoundId id : ids) {
        Compound relative = sound(find_compound(database, id), database);
        if (relative.inchikey != compound.inchikey) {
            relatives.push_back(std::move(relative));
        }
    }
    return relatives;
}

} // namespace cospot::library

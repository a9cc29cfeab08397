#include "identification/known_compounds.h"

#include "library/compounds.h"
#include "library/damage.h"

#include <utility>

namespace cospot {

const ProposedStructure &KnownCompounds::at(std::size_t compound) {
    const std::size_t held = evidence_->compound_ids.size();
    if (compound >= held) {
        return evidence_->proposed[compound - held];
    }
    const std::lock_guard lock(mutex_);
    if (const auto known = read_.find(compound); known != read_.end()) {
        return known->second;
    }
    library::Compound found = library::sound(
        library::find_compound(*database_, evidence_->compound_ids[compound]), *database_);
    return read_
        .emplace(compound, ProposedStructure{std::move(found.name), std::move(found.inchikey),
                                             std::move(found.smiles)})
        .first->second;
}

} // namespace cospot

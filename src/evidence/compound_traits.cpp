#include "evidence/compound_traits.h"

#include "library/compounds.h"

#include <optional>

namespace cospot {

CompoundTraits traits_of(library::Database &database,
                         const std::optional<library::Compound> &compound) {
    CompoundTraits traits;
    if (!compound) {
        return traits;
    }
    if (const auto description = library::description_of(database, compound->id)) {
        traits.groups = reacting_groups(*description);
    }
    if (compound->smiles.find('.') == std::string::npos) {
        traits.monoisotopic_mass = compound->monoisotopic_mass;
        traits.average_mass = compound->average_mass;
        traits.elements = element_counts(compound->formula);
    }
    return traits;
}

std::set<std::string> reacting_groups(const library::Description &description) {
    std::set<std::string> groups{"any"};
    for (const auto &[name, occurrences] : description.groups) {
        groups.insert(name);
    }
    if (description.aromatic_rings > 0) {
        groups.insert("aromatic_ring");
    }
    if (description.aromatic_rings > 1) {
        groups.insert("several_aromatic_rings");
    }
    return groups;
}

std::vector<CompoundTraits> load_traits(library::Database &database,
                                        const LibraryEvidence &evidence) {
    std::vector<CompoundTraits> traits;
    for (const library::CompoundId id : evidence.compound_ids) {
        traits.push_back(traits_of(database, library::find_compound(database, id)));
    }
    for (const ProposedStructure &proposed : evidence.proposed) {
        traits.push_back(
            traits_of(database, library::find_by_inchikey(database, proposed.inchikey)));
    }
    return traits;
}

} // namespace cospot
